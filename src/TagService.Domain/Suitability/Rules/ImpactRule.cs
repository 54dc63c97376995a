using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The construction bears the knocks to be expected; one step of the IK scale short (half the energy) is marginal.</summary>
/// <remarks>Source: IEC 62262 energies (secondary); the step is a planning value, common practice.</remarks>
internal sealed class ImpactRule() : SuitabilityRule("impact", "impact", RuleScope.TagClass, AssetFields.ImpactJ)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Dose(c.Asset.ImpactJ, c.TagClass.Limits.ImpactJ, "J");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"Knocks of {finding.Needed} are to be expected; the tag bears {finding.Offered}.";
}
