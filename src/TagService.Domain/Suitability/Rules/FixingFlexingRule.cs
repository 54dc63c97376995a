using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The fixing holds on a surface that bends.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class FixingFlexingRule() : SuitabilityRule("fixing-flexing", "flexing", RuleScope.Method, AssetFields.Flexing)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Levels(c.Asset.Flexing, c.Method.Flexing);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The surface bends: {finding.Needed}; the fixing holds where bending is {finding.Offered}.";
}
