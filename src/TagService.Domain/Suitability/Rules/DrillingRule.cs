using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Holes, threads, rivets and welds are refused where drilling is not allowed.</summary>
/// <remarks>Source: common practice; the owner's engineer decides.</remarks>
internal sealed class DrillingRule() : SuitabilityRule("drilling", "attachment", RuleScope.Method, AssetFields.AllowDrilling)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Method.NeedsDrilling && !c.Asset.AllowDrilling
            ? new(RuleVerdict.Fail, RuleValue.Of("no holes, threads or welds"), RuleValue.Of("needs holes, threads or welds"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset allows {finding.Needed}; {c.Method.Name} {finding.Offered}.";
}
