using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Where things slide along the surface every day, a tag that stands proud gets torn off.</summary>
/// <remarks>Source: common practice; 3 mm is a planning value.</remarks>
internal sealed class ProtrusionRule() : SuitabilityRule("protrusion", "room", RuleScope.Both, AssetFields.Abrasion)
{
    private const double FlushMm = 3;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Asset.Abrasion == Level.High && Footprint.HeightMm(c) > FlushMm
            ? new(RuleVerdict.Marginal, RuleValue.Of(FlushMm, "mm"), RuleValue.Of(Footprint.HeightMm(c), "mm"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"Things rub along this surface: no more than {finding.Needed} should stand proud, the tag stands {finding.Offered} high. Place it in a recess or behind an edge.";
}
