using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Where the tag may touch food, its construction must be one that can be had with a declaration of compliance.</summary>
/// <remarks>Source: food-contact law of the place (not checked here); common practice.</remarks>
internal sealed class FoodContactRule() : SuitabilityRule("food-contact", "food", RuleScope.TagClass, AssetFields.FoodContact)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Asset.FoodContact && !c.TagClass.Limits.FoodContact
            ? new(RuleVerdict.Fail, RuleValue.Of("contact with food"), RuleValue.Of("no construction for food"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The tag may come into {finding.Needed}; it is {finding.Offered}.";
}
