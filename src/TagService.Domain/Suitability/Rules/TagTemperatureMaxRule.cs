using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears the highest continuous service temperature.</summary>
/// <remarks>Source: planning margin, common practice.</remarks>
internal sealed class TagTemperatureMaxRule() : SuitabilityRule("tag-temperature-max", "temperature", RuleScope.TagClass, AssetFields.TemperatureMaxC)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.NotAbove(c.Asset.TemperatureMaxC, c.TagClass.Limits.TemperatureMaxC, Compare.TemperatureMarginK, "°C");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset stays as hot as {finding.Needed}; the tag bears {finding.Offered} for good.";
}
