using CsCheck;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Suitability.Rules;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Packed verdicts against the rules asked one by one.</summary>
public sealed class VerdictSetTests
{
    private static readonly string[] Categories = [.. AssetProfiles.Table.All.Select(p => p.Name)];

    private static readonly Gen<ResolvedAsset> Assets =
        from category in Gen.Int[0, Categories.Length - 1]
        from setting in Gen.Enum<Setting>()
        from height in Gen.Double[0.2, 30]
        from chemicals in Gen.Int[0, Chemicals.Families.All.Count - 1].List[0, 3]
        select ProfileResolution.Resolve(new()
        {
            Category = Categories[category],
            Mounting = new() { MaxHeightMm = height },
            Environment = new() { Setting = setting, Chemicals = [.. chemicals.Select(i => Chemicals.Families.All[i].Id)] },
        }).Asset;

    [Fact]
    public void Scores_AnyPair_CountTheVerdictsOfAllRules() =>
        Gen.Select(Assets, Gen.Int[0, Pairs - 1]).Sample(
            (asset, pair) => new RuleScores(RecommendationContext.BuiltIn, asset).Of(pair) == Counted(asset, pair));

    [Fact]
    public void Scores_Varied_CountTheVerdictsOnTheVariedAsset() =>
        Gen.Select(Assets, Assets, Gen.Int[0, Pairs - 1]).Sample((one, other, pair) =>
        {
            var scores = new RuleScores(RecommendationContext.BuiltIn, one).Vary(other, AssetComparison.Differences(one, other));
            return scores.Of(pair) == Counted(other, pair);
        });

    [Fact]
    public void FewestFails_AnyAsset_IsExactUpToTheLimitAndAboveItElsewhere() =>
        Gen.Select(Assets, Gen.Int[1, 70]).Sample(
            (asset, wanted) =>
            {
                var catalogue = RecommendationContext.BuiltIn.Catalogue;
                var exact = Enumerable.Range(0, catalogue.Classes.Length)
                    .Select(i => Enumerable.Range(catalogue.FirstPair[i], catalogue.FirstPair[i + 1] - catalogue.FirstPair[i]).Min(p => Counted(asset, p).Fails))
                    .ToArray();
                var fails = new int[exact.Length];
                var scores = new RuleScores(RecommendationContext.BuiltIn, asset);
                var limit = scores.FewestFails(fails, wanted);
                Assert.Equal(exact.Order().ElementAt(Math.Min(wanted, exact.Length) - 1), limit);
                Assert.All(exact.Zip(fails), e => Assert.True(e.First <= limit ? e.Second == e.First : e.Second > limit && e.Second <= e.First));
                Assert.Equal(exact, Enumerable.Range(0, exact.Length).Select(scores.FewestFails));
            },
            iter: 40);

    [Fact]
    public void Unbroken_Varied_AreThePairsWithoutAFail() =>
        Gen.Select(Assets, Assets).Sample(
            (one, other) =>
            {
                var scores = new RuleScores(RecommendationContext.BuiltIn, one).Vary(other, AssetComparison.Differences(one, other));
                var expected = Enumerable.Range(0, Pairs)
                    .Select(pair => (Pair: pair, Score: Counted(other, pair)))
                    .Where(p => p.Score.Fails == 0)
                    .Select(p => new UnbrokenPair(p.Pair, p.Score.Marginals));
                return scores.Unbroken.ToArray().SequenceEqual(expected);
            },
            iter: 50);

    [Fact]
    public void Without_SomePlaces_PassesThemAndKeepsTheOthers()
    {
        // Three rules: fail, marginal, fail.
        var set = new VerdictSet(0b10_01_10);
        Assert.Equal((2, 1, true), (set.Fails, set.Marginals, set.HasFail));
        var without = set.Without(0b01_00_01);
        Assert.Equal((0, 1, false), (without.Fails, without.Marginals, without.HasFail));
    }

    [Fact]
    public void RuleGroup_MoreRulesThanFit_IsRefused() =>
        Assert.Throws<InvalidOperationException>(() => new RuleGroup(
            Enumerable.Repeat(SuitabilityRules.All.OfType<SuitabilityRule>().First(), VerdictSet.MostRules + 1)));

    private static int Pairs => RecommendationContext.BuiltIn.Catalogue.Pairs.Length;

    private static RuleScore Counted(ResolvedAsset asset, int pair)
    {
        var catalogue = RecommendationContext.BuiltIn.Catalogue;
        var (tagClass, method) = catalogue.Pairs[pair];
        var c = new SuitabilityCase(asset, catalogue.Classes[tagClass], catalogue.Methods[method]);
        var verdicts = SuitabilityRules.All.Select(rule => rule.Evaluate(c).Verdict).ToList();
        return new(verdicts.Count(v => v == RuleVerdict.Fail), verdicts.Count(v => v == RuleVerdict.Marginal));
    }
}
