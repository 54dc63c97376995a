using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Tag and fixing together resist people who pick at them as well as the weaker of the two.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class TamperRule() : SuitabilityRule("tamper", "tamper", RuleScope.Both, AssetFields.TamperRisk)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Levels(
            c.Asset.TamperRisk, (Level)Math.Min((int)c.TagClass.Limits.TamperResistance, (int)c.Method.TamperResistance));

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The risk that people pick at it is {finding.Needed}; the resistance of tag and fixing together is {finding.Offered}.";
}
