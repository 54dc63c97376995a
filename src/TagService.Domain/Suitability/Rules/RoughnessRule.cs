using System.Runtime.CompilerServices;
using System.Collections.Immutable;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>An adhesive fills only so much roughness; one step rougher is marginal.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class RoughnessRule() : SuitabilityRule("roughness", "attachment", RuleScope.Method, AssetFields.Coating)
{
    private static readonly ImmutableArray<string> s_words = ["smooth", "normal", "rough", "very rough"];

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Method.Adhesive is { } adhesive
            ? new(
                Compare.Steps((int)c.Asset.Coating.Roughness - (int)adhesive.MaxRoughness),
                RuleValue.Of(s_words[(int)c.Asset.Coating.Roughness]),
                RuleValue.Of(s_words[(int)adhesive.MaxRoughness]))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The surface is {finding.Needed}; the adhesive holds on surfaces up to {finding.Offered}.";
}
