using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag bears the highest short peak.</summary>
/// <remarks>Source: planning margin, common practice.</remarks>
internal sealed class TagTemperaturePeakRule() : SuitabilityRule("tag-temperature-peak", "temperature", RuleScope.TagClass, AssetFields.PeakTemperatureC | AssetFields.TemperatureMaxC)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.NotAbove(
            Math.Max(c.Asset.PeakTemperatureC, c.Asset.TemperatureMaxC), c.TagClass.Limits.PeakTemperatureC, Compare.TemperatureMarginK, "°C");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset reaches {finding.Needed} for a short time; the tag bears peaks of {finding.Offered}.";
}
