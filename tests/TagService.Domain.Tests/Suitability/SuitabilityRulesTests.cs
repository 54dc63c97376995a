using CsCheck;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Properties that every rule keeps, over every tag class and attachment method.</summary>
public sealed class SuitabilityRulesTests
{
    private static readonly DateOnly s_day = new(2026, 1, 1);

    [Fact]
    public void All_Ids_AreUniqueKebabCaseAndEveryScopeIsCovered()
    {
        var rules = SuitabilityRules.All;
        Assert.Equal(rules.Count, rules.Select(r => r.Id).Distinct().Count());
        Assert.All(rules, r => Assert.Matches("^[a-z]+(-[a-z]+)*$", r.Id));
        Assert.Equal(
            rules.Count,
            SuitabilityRules.OfTagClass.Count + SuitabilityRules.OfMethod.Count + SuitabilityRules.OfBoth.Count);
    }

    [Fact]
    public void Evaluate_AnyAsset_IsDeterministicNeverThrowsAndExplainsBothValues() =>
        TestAssets.Any.Sample(
            asset =>
            {
                foreach (var c in Cases(asset))
                {
                    foreach (var rule in SuitabilityRules.All)
                    {
                        var finding = rule.Evaluate(c);
                        Assert.Equal(finding, rule.Evaluate(c));
                        if (finding.Verdict == RuleVerdict.Pass)
                            continue;
                        var sentence = rule.Explain(c, finding);
                        Assert.False(string.IsNullOrWhiteSpace(finding.Needed.ToString()), rule.Id);
                        Assert.False(string.IsNullOrWhiteSpace(finding.Offered.ToString()), rule.Id);
                        Assert.Contains(finding.Needed.ToString(), sentence, StringComparison.Ordinal);
                        Assert.Contains(finding.Offered.ToString(), sentence, StringComparison.Ordinal);
                        Assert.EndsWith(".", sentence, StringComparison.Ordinal);
                    }
                }
            },
            iter: 4);

    [Fact]
    public void Evaluate_ScopedRule_LooksAtNothingElse()
    {
        // A rule of the class only must not change with the fixing, and the other way round: callers rely on it.
        TestAssets.Any.Sample(
            asset =>
            {
                foreach (var rule in SuitabilityRules.OfTagClass)
                {
                    foreach (var tagClass in TagClassCatalogue.BuiltIn.All)
                        Assert.Single(AttachmentMethods.All.Select(m => rule.Evaluate(new(asset, tagClass, m, s_day))).Distinct());
                }

                foreach (var rule in SuitabilityRules.OfMethod)
                {
                    foreach (var method in AttachmentMethods.All)
                        Assert.Single(TagClassCatalogue.BuiltIn.All.Select(t => rule.Evaluate(new(asset, t, method, s_day))).Distinct());
                }
            },
            iter: 4);
    }

    [Fact]
    public void Evaluate_EveryCase_AllocatesNothing()
    {
        // Abrasion, explosive zone and chemicals drive the rules into their long branches.
        var asset = TestAssets.Any.Array[8].Single();
        var cases = asset.SelectMany(Cases).Take(4000).ToArray();
        EvaluateAll(cases);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var fails = EvaluateAll(cases);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.True(fails > 0);
    }

    [Fact]
    public void All_BenignAssets_FindAClassThatPasses()
    {
        // Common practice: a dry indoor thing of steel or plastic with room enough can be tagged.
        foreach (var material in new[] { TestAssets.Steel, TestAssets.Solid("pc", Domain.Surfaces.MaterialKind.Dielectric, 42, 44, 46) })
        {
            var asset = TestAssets.Benign(material);
            Assert.Contains(
                TagClassCatalogue.BuiltIn.All,
                t => t.AttachmentMethods.Any(m => Worst(new(asset, t, AttachmentMethods.Table[m])) == RuleVerdict.Pass));
        }
    }

    [Fact]
    public void All_EveryTagClass_PassesSomewhere()
    {
        // A class that suits nothing at all would be a mistake of the catalogue; what is moulded in is marginal at best.
        string[] ids = ["steel", "wood", "pp", "pc", "rubber", "textile", "muscle", "cardboard"];
        Domain.Recommendations.ResolvedAsset[] assets =
        [
            .. ids.Select(Place),
            TestAssets.Benign() with { CurvatureRadiusMm = 12 },
            TestAssets.Benign() with { CurvatureRadiusMm = 150 },
        ];
        Assert.All(TagClassCatalogue.BuiltIn.All, t => Assert.Contains(
            assets,
            a => t.AttachmentMethods.Any(m => Worst(new(a, t, AttachmentMethods.Table[m]))
                <= (AttachmentMethods.Table[m].AtManufactureOnly ? RuleVerdict.Marginal : RuleVerdict.Pass))));
    }

    private static Domain.Recommendations.ResolvedAsset Place(string id) => TestAssets.Benign(id switch
    {
        "steel" => TestAssets.Steel,
        "textile" => TestAssets.Material(id, Domain.Surfaces.MaterialKind.Textile),
        "muscle" => TestAssets.Material(id, Domain.Surfaces.MaterialKind.Tissue),
        _ => TestAssets.Solid(id, Domain.Surfaces.MaterialKind.Dielectric, 42, 44, 46),
    });

    internal static IEnumerable<SuitabilityCase> Cases(Domain.Recommendations.ResolvedAsset asset) =>
        from tagClass in TagClassCatalogue.BuiltIn.All
        from method in AttachmentMethods.All
        select new SuitabilityCase(asset, tagClass, method, s_day);

    private static RuleVerdict Worst(in SuitabilityCase c) => Verdicts.Worst(c, SuitabilityRules.All);

    private static int EvaluateAll(SuitabilityCase[] cases)
    {
        var fails = 0;
        foreach (ref readonly var c in cases.AsSpan())
        {
            if (Verdicts.Worst(c, SuitabilityRules.All) == RuleVerdict.Fail)
                fails++;
        }

        return fails;
    }
}
