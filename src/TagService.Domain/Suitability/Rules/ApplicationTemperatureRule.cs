using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>An adhesive takes only above its lowest application temperature; up to 10 K too cold can be warmed.</summary>
/// <remarks>Source: label converters' guidance on application temperature (secondary); the 10 K are common practice.</remarks>
internal sealed class ApplicationTemperatureRule() : SuitabilityRule("application-temperature", "temperature", RuleScope.Method, AssetFields.ApplicationTemperatureC)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Method.Adhesive is { } adhesive
            ? new(
                Judge(c.Asset.ApplicationTemperatureC, adhesive.MinApplicationTemperatureC),
                RuleValue.Of(c.Asset.ApplicationTemperatureC, "°C"),
                RuleValue.Of(adhesive.MinApplicationTemperatureC, "°C"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"It is put on at {finding.Needed}; the adhesive needs surface and air of at least {finding.Offered}. Warm the surface or choose a cold-grade adhesive or a mechanical fixing.";

    private static RuleVerdict Judge(double actualC, double minimumC) =>
        actualC >= minimumC ? RuleVerdict.Pass
        : actualC >= minimumC - 10 ? RuleVerdict.Marginal
        : RuleVerdict.Fail;
}
