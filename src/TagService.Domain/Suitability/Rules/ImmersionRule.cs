using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears continuous immersion at the depth at hand.</summary>
/// <remarks>Source: IEC 60529 level 8 is as agreed between maker and user (secondary).</remarks>
internal sealed class ImmersionRule() : SuitabilityRule("immersion", "water", RuleScope.TagClass, AssetFields.ImmersionM)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.NotAbove(c.Asset.ImmersionM, c.TagClass.Limits.ImmersionM, 0, "m");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The tag lies {finding.Needed} under water; it is made for {finding.Offered}.";
}
