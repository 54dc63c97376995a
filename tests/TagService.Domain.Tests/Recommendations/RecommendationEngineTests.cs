using CsCheck;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Recommendations;

public sealed class RecommendationEngineTests
{
    private static readonly RecommendationOptions Everything = new(IncludeAll: true, IncludeQuestions: false);

    private static Candidate Of(RecommendationAnswer answer, string tagClassId) =>
        answer.Candidates.Single(c => c.TagClass.Id == tagClassId);

    private static AssetRecord On(string material, double range = 2, string? backing = null) => new()
    {
        Surface = new() { Material = material, Coating = "bare", CurvatureRadiusMm = 0, Backing = backing },
        Mounting = new() { LengthMm = 200, WidthMm = 100, MaxHeightMm = 30 },
        Environment = new() { Setting = Setting.Indoor },
        Reading = new() { RequiredRangeM = range, Region = "US", ReaderKind = ReaderKind.Handheld },
    };

    [Fact]
    public void Recommend_EmptyRecord_AnswersAndSaysWhatItAssumed()
    {
        var answer = RecommendationEngine.Recommend(new(), new(IncludeQuestions: true));
        Assert.Equal(0, answer.Profile.Confidence);
        Assert.NotEmpty(answer.Assumptions);
        Assert.NotEmpty(answer.Questions);
        Assert.Equal(RecommendationEngine.ShownCandidates, answer.Candidates.Count);
        Assert.NotEmpty(answer.Cautions);
    }

    [Fact]
    public void Recommend_EveryProfile_AnswersWithOrderedCandidates()
    {
        foreach (var profile in AssetProfiles.Table.All)
        {
            var answer = RecommendationEngine.Recommend(new() { Category = profile.Name }, Everything);
            Assert.Equal(TagClassCatalogue.BuiltIn.All.Count, answer.Candidates.Count);
            Assert.Equal(answer.Candidates.Select(c => c.Verdict).Order(), answer.Candidates.Select(c => c.Verdict));
            Assert.True(
                (answer.Recommendation is null) == (answer.NoneBecause is not null),
                $"{profile.Id}: exactly one of recommendation and noneBecause.");
            if (answer.Recommendation is { } best)
                Assert.Same(answer.Candidates[0], best);
        }
    }

    [Fact]
    public void Recommend_TheSameRecordTwice_GivesTheSameAnswer()
    {
        var record = On("steel");
        var first = RecommendationEngine.Recommend(record);
        var second = RecommendationEngine.Recommend(record);
        Assert.Equal(
            first.Candidates.Select(c => (c.TagClass.Id, c.Method.Id, c.Cost.PresentValue)),
            second.Candidates.Select(c => (c.TagClass.Id, c.Method.Id, c.Cost.PresentValue)));
        Assert.NotEmpty(first.Questions);
        Assert.Equal(first.Questions.Select(q => (q.Pointer, q.ExpectedSaving)), second.Questions.Select(q => (q.Pointer, q.ExpectedSaving)));
    }

    /// <summary>Common practice: a plain paper label stuck on bare metal does not read.</summary>
    [Theory]
    [InlineData("steel")]
    [InlineData("aluminium")]
    public void Recommend_PaperLabelOnMetal_IsNeverChosen(string material)
    {
        var answer = RecommendationEngine.Recommend(On(material), Everything);
        var label = Of(answer, "paper-label-medium");
        Assert.Equal(RangeLimit.DoesNotRead, label.Range.LimitedBy);
        Assert.NotEqual(CandidateVerdict.Suitable, label.Verdict);
        Assert.NotNull(label.Range.DoesNotReadBecause);
        Assert.Equal(AntennaKind.GroundPlane, answer.Recommendation!.TagClass.Antenna.Kind);
    }

    /// <summary>Common practice: on cardboard indoors a plain label is enough and a hard metal-mount tag a waste.</summary>
    [Fact]
    public void Recommend_Cardboard_ChoosesALabel() =>
        Assert.Equal(AntennaKind.Dipole, RecommendationEngine.Recommend(On("cardboard")).Recommendation!.TagClass.Antenna.Kind);

    /// <summary>Common practice: what holds in an office does not hold on a building site.</summary>
    [Fact]
    public void Recommend_OfficeAndRoughSite_Differ()
    {
        AssetRecord At(Setting setting) => On("steel") with
        {
            Environment = new() { Setting = setting }, Service = new() { LifeYears = 8 },
        };
        var office = RecommendationEngine.Recommend(At(Setting.Office)).Recommendation!;
        var site = RecommendationEngine.Recommend(At(Setting.RoughSite), Everything).Recommendation!;
        Assert.True(site.TagClass.Limits.ImpactJ > office.TagClass.Limits.ImpactJ);
        Assert.True(site.Cost.PresentValue > office.Cost.PresentValue);
    }

    [Fact]
    public void Recommend_DeeplyImmersed_SaysWhatWouldHaveToChange()
    {
        var record = On("steel") with { Environment = new() { Setting = Setting.Buried, ImmersionM = 900 } };
        var answer = RecommendationEngine.Recommend(record);
        Assert.Null(answer.Recommendation);
        Assert.NotEmpty(answer.NoneBecause!.Summary);
        Assert.All(answer.Candidates, c => Assert.Contains(c.Rejections, r => r.Verdict == RuleVerdict.Fail));
    }

    [Fact]
    public void Recommend_RangeNobodyReaches_OffersTheReachableDistance()
    {
        var answer = RecommendationEngine.Recommend(On("steel", range: 60));
        Assert.Null(answer.Recommendation);
        Assert.Contains(answer.NoneBecause!.Changes, c => c.What == "reading distance");
    }

    [Fact]
    public void Recommend_HazardousArea_NothingWithoutACertificate()
    {
        // IEC 60079-14: only equipment certified for the zone; the built-in catalogue holds no certificates.
        var record = On("steel") with { Environment = new() { HazardousArea = new() { Zone = "1", Group = "IIB", TemperatureClass = "T4" } } };
        var answer = RecommendationEngine.Recommend(record, Everything);
        Assert.Null(answer.Recommendation);
        Assert.All(answer.Candidates, c => Assert.Contains(c.Rejections, r => r.RuleId == "hazardous-area"));
        Assert.Contains(answer.Cautions, c => c.Id == "explosive-atmosphere");
    }

    private static readonly string?[] Categories = [null, .. AssetProfiles.Table.All.Select(p => p.Name)];

    private static readonly string?[] SomeMaterials =
        [null, "steel", "aluminium", "abs", "pp", "wood", "glass", "concrete", "textile"];

    private static readonly Gen<AssetRecord> Records =
        from category in Gen.Int[0, Categories.Length - 1].Select(i => Categories[i])
        from material in Gen.Int[0, SomeMaterials.Length - 1].Select(i => SomeMaterials[i])
        from length in Gen.Double[10, 300]
        from width in Gen.Double[5, 150]
        from height in Gen.Double[0.2, 40]
        from setting in Gen.Enum<Setting>()
        from range in Gen.Double[0.05, 12]
        from life in Gen.Double[0.5, 30]
        select new AssetRecord
        {
            Category = category,
            Surface = new() { Material = material },
            Mounting = new() { LengthMm = length, WidthMm = width, MaxHeightMm = height },
            Environment = new() { Setting = setting },
            Reading = new() { RequiredRangeM = range },
            Service = new() { LifeYears = life },
        };

    [Fact]
    public void Recommend_AnyRecord_EveryCandidateIsComplete() =>
        Records.Sample(
            record => RecommendationEngine.Recommend(record, Everything).Candidates.All(c =>
                c.Range.P10 <= c.Range.P50 && c.Range.P50 <= c.Range.P90
                && c.RequiredRangeProbability is >= 0 and <= 1
                && c.SurvivesService is >= 0 and <= 1
                && Math.Abs(c.Cost.Components.Sum(p => p.PresentValue) - c.Cost.PresentValue) < 1e-6
                && c.Steps.Count > 0 && c.Minutes > 0 && c.Reasons.Count > 0
                && (c.LossBudget.Count > 0 || c.Range.LimitedBy == RangeLimit.WrongReader)
                && (c.Verdict != CandidateVerdict.Unsuitable || c.Rejections.Any(r => r.Verdict == RuleVerdict.Fail))
                && c.Rejections.All(r => r.Needed.Length > 0 && r.Offered.Length > 0 && r.Sentence.Length > 0)),
            iter: 60);

    [Fact]
    public void Choice_AnyRecord_IsTheFirstOfTheWholeRankingIfThatFits() =>
        Records.Sample(
            record =>
            {
                var judge = new AssetJudge(ProfileResolution.Resolve(record).Asset, RecommendationContext.BuiltIn);
                var first = judge.RankAll()[0];
                return judge.Choice() is { } choice
                    ? first.Fits && choice.TagClass.Id == first.TagClass.Id && choice.Method.Id == first.Method.Id && choice.Cost == first.Cost
                    : !first.Fits;
            },
            iter: 200);

    [Fact]
    public void Rank_AnyRecord_IsTheHeadOfAnObviousWholeRanking() =>
        Records.Sample(
            record =>
            {
                var judge = new AssetJudge(ProfileResolution.Resolve(record).Asset, RecommendationContext.BuiltIn);
                var all = EveryPair(judge).GroupBy(e => e.TagClass.Id).Select(g => g.Min()).Order().ToList();
                return judge.Rank(7).Take(7).Select(e => (e.TagClass.Id, e.Method.Id)).SequenceEqual(all.Take(7).Select(e => (e.TagClass.Id, e.Method.Id)))
                    && judge.RankAll().Select(e => (e.TagClass.Id, e.Method.Id)).SequenceEqual(all.Select(e => (e.TagClass.Id, e.Method.Id)));
            },
            iter: 100);

    /// <summary>The slow way: each fixing of each class as a catalogue of its own.</summary>
    private static IEnumerable<ClassEvaluation> EveryPair(AssetJudge judge) =>
        from tagClass in TagClassCatalogue.BuiltIn.All
        from method in tagClass.AttachmentMethods
        let alone = new RecommendationContext([tagClass with { AttachmentMethods = [method] }], "one", RangeCalibrations.None, null)
        select new AssetJudge(judge.Asset, alone).OfClass(alone.Catalogue.Classes[0]);

    [Fact]
    public void Vary_AnyTwoRecords_IsTheSameAsJudgingAnew() =>
        Gen.Select(Records, Records).Sample(
            (one, other) =>
            {
                var context = RecommendationContext.BuiltIn;
                var varied = ProfileResolution.Resolve(other).Asset;
                var anew = new AssetJudge(varied, context).RankAll();
                var taken = new AssetJudge(ProfileResolution.Resolve(one).Asset, context).Vary(varied).RankAll();
                return anew.Select(e => (e.TagClass.Id, e.Method.Id, e.Cost)).SequenceEqual(taken.Select(e => (e.TagClass.Id, e.Method.Id, e.Cost)));
            },
            iter: 100);

    /// <summary>The slow way beside the one questions take: each answer laid under the record, resolved and ranked as if it were the first.</summary>
    [Fact]
    public void Choice_AnyPlausibleAnswer_IsTheFirstOfAWholeRankingOfTheFilledRecord() =>
        Gen.OneOf(Records, Records.Select(r => new AssetRecord { Category = r.Category })).Sample(
            record =>
            {
                var resolution = ProfileResolution.Resolve(record);
                var judge = new AssetJudge(resolution.Asset, RecommendationContext.BuiltIn);
                foreach (var values in PlausibleAnswers.Of(resolution.Asset.Profile).Values.SelectMany(q => q.Answers).Select(a => a.Values))
                {
                    var filled = ProfileResolution.Resolve(RecordOverlay.Fill(record, values), resolution.Match).Asset;
                    var first = new AssetJudge(filled, RecommendationContext.BuiltIn).RankAll()[0];
                    var varied = ProfileResolution.Vary(record, resolution, values);
                    Assert.Equal(AssetFields.None, AssetComparison.Differences(filled, varied));
                    var choice = judge.Vary(varied).Choice();
                    Assert.Equal(first.Fits, choice is not null);
                    if (choice is { } c)
                        Assert.Equal((first.TagClass.Id, first.Cost), (c.TagClass.Id, c.Cost));
                }
            },
            iter: 20);

    /// <summary>Common practice: more room never makes a class that fitted unfit, nor lets anything read shorter.</summary>
    [Fact]
    public void Recommend_MoreRoom_NeverLosesAChoice() =>
        Records.Sample(
            record =>
            {
                var before = RecommendationEngine.Recommend(record, Everything);
                var m = record.Mounting!;
                var after = RecommendationEngine.Recommend(
                    record with
                    {
                        Mounting = m with { LengthMm = m.LengthMm * 2, WidthMm = m.WidthMm * 2, MaxHeightMm = m.MaxHeightMm * 2 },
                    },
                    Everything);
                return before.Recommendation is null
                    || (after.Recommendation is not null
                        && after.Candidates.Count(c => c.Verdict <= CandidateVerdict.Marginal)
                        >= before.Candidates.Count(c => c.Verdict <= CandidateVerdict.Marginal));
            },
            iter: 60);

    [Fact]
    public void Questions_EveryRow_CanBeAnswered()
    {
        Assert.All(PlausibleAnswers.Table.All, q =>
        {
            Assert.EndsWith("?", q.Text, StringComparison.Ordinal);
            Assert.Equal(1, q.Answers.Sum(a => a.Share), 1e-9);
            Assert.NotEmpty(q.Source);
            Assert.All(q.Answers, a =>
            {
                var filled = RecordOverlay.Fill(new(), a.Values);
                Assert.DoesNotContain(ProfileResolution.Resolve(filled).Assumptions, x => x.Pointer == q.Field);
            });
        });
    }

    [Fact]
    public void Questions_GivenField_IsNotAsked()
    {
        var answer = RecommendationEngine.Recommend(On("steel"), new(IncludeQuestions: true));
        Assert.DoesNotContain(answer.Questions, q => q.Pointer is "/surface/material" or "/reading/requiredRangeM");
        Assert.Equal(answer.Questions.Select(q => q.ExpectedSaving).OrderDescending(), answer.Questions.Select(q => q.ExpectedSaving));
    }
}
