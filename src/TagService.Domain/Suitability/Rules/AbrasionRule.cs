using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The face bears the rubbing of use and cleaning.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class AbrasionRule() : SuitabilityRule("abrasion", "abrasion", RuleScope.TagClass, AssetFields.Abrasion)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Levels(c.Asset.Abrasion, c.TagClass.Limits.Abrasion);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"Abrasion is {finding.Needed} here; the tag's face is made for {finding.Offered}.";
}
