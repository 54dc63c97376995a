using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>On oil, rust, dirt or loose paint an adhesive holds only after they are removed.</summary>
/// <remarks>Source: common practice of surface preparation.</remarks>
internal sealed class LooseCoatingRule() : SuitabilityRule("loose-coating", "attachment", RuleScope.Method, AssetFields.Coating)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Method.Adhesive is not null && c.Asset.Coating.MustBeRemoved
            ? new(RuleVerdict.Marginal, RuleValue.Of(c.Asset.Coating.Name), RuleValue.Of("clean, sound ground"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The surface is covered ({finding.Needed}); the adhesive needs {finding.Offered}: remove it first.";
}
