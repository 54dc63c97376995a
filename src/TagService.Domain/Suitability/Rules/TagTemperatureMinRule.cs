using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears the coldest service temperature.</summary>
/// <remarks>Source: planning margin, common practice.</remarks>
internal sealed class TagTemperatureMinRule() : SuitabilityRule("tag-temperature-min", "temperature", RuleScope.TagClass, AssetFields.TemperatureMinC)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.NotBelow(c.Asset.TemperatureMinC, c.TagClass.Limits.TemperatureMinC, Compare.TemperatureMarginK, "°C");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset gets as cold as {finding.Needed}; the tag is made for {finding.Offered} and above.";
}
