using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The fixing bears the highest short peak.</summary>
/// <remarks>Source: planning margin, common practice.</remarks>
internal sealed class FixingTemperaturePeakRule() : SuitabilityRule("fixing-temperature-peak", "temperature", RuleScope.Method, AssetFields.PeakTemperatureC | AssetFields.TemperatureMaxC)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.NotAbove(
            Math.Max(c.Asset.PeakTemperatureC, c.Asset.TemperatureMaxC), c.Method.PeakTemperatureC, Compare.TemperatureMarginK, "°C");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset reaches {finding.Needed} for a short time; the fixing bears peaks of {finding.Offered}.";
}
