using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>What is moulded in can only be had with a new part: marginal, because the asset may stand there already.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class ManufactureRule() : SuitabilityRule("manufacture", "attachment", RuleScope.Method, AssetFields.None)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Method.AtManufactureOnly
            ? new(RuleVerdict.Marginal, RuleValue.Of("an asset in use"), RuleValue.Of("while a part is made"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The tag is for {finding.Needed}; it can be fitted only {finding.Offered}: agree it with the maker of new parts.";
}
