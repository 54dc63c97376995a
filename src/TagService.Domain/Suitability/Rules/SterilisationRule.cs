using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears the steam sterilisation cycles of the asset's life; up to twice as many need a replacement in between.</summary>
/// <remarks>Source: planning value, common practice.</remarks>
internal sealed class SterilisationRule() : SuitabilityRule("sterilisation", "sterilisation", RuleScope.TagClass, AssetFields.SterilisationCycles)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Dose(c.Asset.SterilisationCycles, c.TagClass.Limits.SterilisationCycles, "cycles");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset is steam-sterilised for {finding.Needed}; the tag bears {finding.Offered}.";
}
