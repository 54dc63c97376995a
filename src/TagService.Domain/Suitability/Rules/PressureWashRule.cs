using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Hot high-pressure washing needs a construction made for it.</summary>
/// <remarks>Source: IEC 60529 level 9 describes such jets (secondary); common practice.</remarks>
internal sealed class PressureWashRule() : SuitabilityRule("pressure-wash", "water", RuleScope.TagClass, AssetFields.PressureWash)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Asset.PressureWash && !c.TagClass.Limits.PressureWash
            ? new(RuleVerdict.Fail, RuleValue.Of("hot high-pressure washing"), RuleValue.Of("no hot high-pressure washing"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset gets {finding.Needed}; the tag is made for {finding.Offered}.";
}
