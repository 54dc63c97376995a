using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>A fixing that lets go under water or under hot jets in the long run is marginal there.</summary>
/// <remarks>Source: common practice of pressure-sensitive adhesives.</remarks>
internal sealed class FixingWaterRule() : SuitabilityRule("fixing-water", "water", RuleScope.Method, AssetFields.ImmersionM | AssetFields.PressureWash)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Asset.PressureWash && !c.Method.HoldsUnderJets
            ? new(RuleVerdict.Marginal, RuleValue.Of("hot high-pressure washing"), RuleValue.Of("edges that jets can lift"))
        : c.Asset.ImmersionM > 0 && !c.Method.HoldsUnderWater
            ? new(RuleVerdict.Marginal, RuleValue.Of(c.Asset.ImmersionM, "m"), RuleValue.Of("no lasting bond under water"))
        : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        finding.Needed.Number is null
            ? $"The asset gets {finding.Needed}; {c.Method.Name} has {finding.Offered}."
            : $"The fixing lies {finding.Needed} under water; {c.Method.Name} has {finding.Offered}.";
}
