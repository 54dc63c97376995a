using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears repeated bending of the surface.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class TagFlexingRule() : SuitabilityRule("tag-flexing", "flexing", RuleScope.TagClass, AssetFields.Flexing)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Levels(c.Asset.Flexing, c.TagClass.Limits.Flexing);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The surface bends: {finding.Needed}; the tag is made for {finding.Offered}.";
}
