using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The fixing bears the coldest service temperature.</summary>
/// <remarks>Source: planning margin, common practice.</remarks>
internal sealed class FixingTemperatureMinRule() : SuitabilityRule("fixing-temperature-min", "temperature", RuleScope.Method, AssetFields.TemperatureMinC)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.NotBelow(c.Asset.TemperatureMinC, c.Method.TemperatureMinC, Compare.TemperatureMarginK, "°C");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset gets as cold as {finding.Needed}; the fixing is made for {finding.Offered} and above.";
}
