using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears the industrial wash cycles of the asset's life; up to twice as many need a replacement in between.</summary>
/// <remarks>Source: planning value, common practice.</remarks>
internal sealed class LaundryRule() : SuitabilityRule("laundry", "laundry", RuleScope.TagClass, AssetFields.LaundryCycles)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Dose(c.Asset.LaundryCycles, c.TagClass.Limits.LaundryCycles, "washes");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset goes through {finding.Needed}; the tag bears {finding.Offered}.";
}
