using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>What is set or driven in needs a wall that is thick enough for it and its cover.</summary>
/// <remarks>Source: geometry; cover 0.5 mm is a planning value, common practice.</remarks>
internal sealed class RecessDepthRule() : SuitabilityRule("recess-depth", "room", RuleScope.Both, AssetFields.ThicknessMm)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        RoomFit.Judge(c.Asset.ThicknessMm, Footprint.DepthMm(c), 0);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The wall is {finding.Needed} thick; the tag needs {finding.Offered} of depth.";
}
