using CsCheck;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.TagClasses;

/// <summary>What a user lays over the catalogue. Prices and certificates in here are invented.</summary>
public sealed class TagClassOverlayTests
{
    private static readonly DateOnly Day = new(2026, 11, 25);
    private static readonly HazardousAreaCertificate Certificate = new("X 123", "Gb", "IIC", "T6", Day);

    private static IReadOnlyList<TagClass> BuiltIn => TagClassCatalogue.BuiltIn.All;

    [Fact]
    public void Apply_NoOverlays_IsTheBuiltInCatalogueItself() =>
        Assert.Equal(TagClassCatalogue.Version, TagClassCatalogue.VersionOf(TagClassOverlay.Apply(BuiltIn, [], Day)));

    // Over all classes: only what is laid over changes.
    [Fact]
    public void Apply_PriceAndCertificate_LeaveTheConstructionAlone() => Assert.All(BuiltIn, c =>
    {
        var price = new PriceBand(3, 4, 5, "EUR", 500);
        var overlay = new TagClassOverlay { Id = c.Id, Price = price, Certificate = Certificate, ApplicationMinutes = 7 };
        var over = TagClassOverlay.Apply(BuiltIn, [overlay], Day).Single(o => o.Id == c.Id);
        Assert.Equal((price, Certificate, 7.0), (over.Price, over.Certificate, over.ApplicationMinutes));
        Assert.StartsWith(c.Source, over.Source, StringComparison.Ordinal);
        Assert.Equal(c, over with { Price = c.Price, Certificate = null, ApplicationMinutes = c.ApplicationMinutes, Source = c.Source });
    });

    [Theory]
    [InlineData(0, true)]
    [InlineData(1, true)]
    [InlineData(-1, false)]
    public void Apply_QuoteWithALastDay_CountsThroughThatDay(int days, bool counts)
    {
        var overlay = new TagClassOverlay { Id = BuiltIn[0].Id, Price = new(90, 90, 90, "EUR", 1, Day.AddDays(days)) };
        Assert.Equal(counts, TagClassOverlay.Apply(BuiltIn, [overlay], Day)[0].Price.Typical == 90);
    }

    [Fact]
    public void Apply_OwnClasses_ComeLastInOrderOfTheirIds()
    {
        TagClassOverlay[] overlays = [Own("zz"), Own("own-a"), new() { Id = "gone", Price = new(1, 1, 1, "EUR", 1) }];
        var all = TagClassOverlay.Apply(BuiltIn, overlays, Day);
        Assert.Equal([.. BuiltIn.Select(c => c.Id), "own-a", "zz"], all.Select(c => c.Id));
        Assert.NotEqual(TagClassCatalogue.Version, TagClassCatalogue.VersionOf(all));
        Assert.Equal(TagClassCatalogue.VersionOf(all), TagClassCatalogue.VersionOf(TagClassOverlay.Apply(BuiltIn, [.. overlays.Reverse()], Day)));
    }

    [Fact]
    public void Faults_EveryBuiltInClassAsOwn_HasNone() =>
        Assert.All(BuiltIn, c => Assert.Empty(TagClassCheck.Faults(new() { Id = "own", Own = c with { Id = "own", Certificate = Certificate } })));

    public static TheoryData<string, Func<TagClass, TagClass>> Broken => new()
    {
        { "/attachmentMethods/1", c => c with { AttachmentMethods = [c.AttachmentMethods[0], "spit"] } },
        { "/attachmentMethods/1", c => c with { AttachmentMethods = [c.AttachmentMethods[0], c.AttachmentMethods[0]] } },
        { "/attachmentMethods/0", c => c with { AttachmentMethods = [c.AttachmentMethods[0].ToUpperInvariant()] } },
        { "/attachmentMethods", c => c with { AttachmentMethods = [] } },
        { "/cautions/0", c => c with { Cautions = ["dragons"] } },
        { "/limits/faceMaterial", c => c with { Limits = c.Limits with { FaceMaterial = "moonstone" } } },
        { "/limits/ipCodes/1", c => c with { Limits = c.Limits with { IpCodes = ["IP66", "IP99"] } } },
        { "/limits/temperatureMinC", c => c with { Limits = c.Limits with { TemperatureMinC = 60, TemperatureMaxC = 60 } } },
        { "/limits/peakTemperatureC", c => c with { Limits = c.Limits with { PeakTemperatureC = c.Limits.TemperatureMaxC - 1 } } },
        { "/size/widthMm", c => c with { Size = c.Size with { WidthMm = c.Size.LengthMm + 1 } } },
        { "/antenna/kind", c => c with { Technology = TagTechnology.Hf15693 } },
        { "/antenna/standoffMm", c => c with { Antenna = c.Antenna with { StandoffMm = c.Size.HeightMm + 1 } } },
        { "/antenna/thresholdDbm", c => c with { Antenna = c.Antenna with { ThresholdDbm = 0 } } },
        { "/antenna/bandwidthMhz", c => c with { Antenna = c.Antenna with { BandwidthMhz = 0 } } },
        { "/antenna/referencePlateMm", c => c with { Antenna = c.Antenna with { ReferencePlateMm = 100 } } },
        { "/price/typical", c => c with { Price = c.Price with { Low = c.Price.High + 1 } } },
        { "/price/typical", c => c with { Price = c.Price with { Low = 0, Typical = 0 } } },
        { "/certificate/group", c => c with { Certificate = Certificate with { Group = "IIIC" } } },
    };

    [Theory]
    [MemberData(nameof(Broken))]
    public void Faults_OneThingWrong_IsTheOnlyOneNamed(string pointer, Func<TagClass, TagClass> change) =>
        Assert.Equal(pointer, Assert.Single(TagClassCheck.Faults(new() { Id = "own", Own = change(BuiltIn[0] with { Id = "own" }) })).Pointer);

    // Whatever class passes the check gets finite answers on any material: nobody's own class stops the service.
    [Fact]
    public void Recommend_AnyOwnClassThatPassesTheCheck_AnswersWithFiniteNumbers() =>
        Gen.Select(AnyOwnClass, Any(Materials.Table.All), Gen.Enum<Setting>(), Gen.Enum<ReaderKind>()).Sample((own, material, setting, reader) =>
        {
            var overlay = new TagClassOverlay { Id = own.Id, Own = own };
            if (TagClassCheck.Faults(overlay).Count > 0)
                return;
            var classes = TagClassOverlay.Apply([], [overlay], Day);
            var context = new RecommendationContext(classes, TagClassCatalogue.VersionOf(classes), RangeCalibrations.None, Day);
            var record = new AssetRecord { Surface = new() { Material = material.Id }, Environment = new() { Setting = setting }, Reading = new() { ReaderKind = reader } };
            var answer = RecommendationEngine.Recommend(record, new(IncludeAll: true), context);
            Assert.All(answer.Candidates, c =>
            {
                Assert.True(double.IsFinite(c.Range.P10.Value + c.Range.P50.Value + c.Range.P90.Value + c.RequiredRangeProbability));
                Assert.True(double.IsFinite(c.Cost.PresentValue + c.Cost.P10 + c.Cost.P90 + c.Life.Distribution.MedianYears));
                Assert.All(c.LossBudget, l => Assert.True(double.IsFinite(l.LevelDbm) || c.Range.LimitedBy == RangeLimit.WrongReader));
            });
        }, iter: 600);

    // 8 mm square, claimed as a full-size dipole: Chu (1948) and Harrington (1960) allow far less.
    [Fact]
    public void Recommend_ClassBeyondTheSizeBound_CarriesANotice()
    {
        var dot = BuiltIn[0] with { Id = "wonder-dot", Size = new(8, 8, 0.2), Antenna = BuiltIn[0].Antenna with { ReferenceGainDbi = 2 } };
        var answer = Answer(TagClassOverlay.Apply([], [new() { Id = dot.Id, Own = dot }], Day), new());
        var notice = answer.Notices.First(n => n.Code == "size-bound");
        Assert.Equal("/candidates/0", notice.Pointer);
        Assert.Contains("2.0 dBi", notice.Text, StringComparison.Ordinal);
        Assert.DoesNotContain(RecommendationEngine.Recommend(new(), new(IncludeAll: true)).Notices, n => n.Code == "size-bound");
    }

    [Fact]
    public void Recommend_QuoteInAnotherCurrency_IsNotConvertedAndSaysSo()
    {
        var classes = TagClassOverlay.Apply(BuiltIn, [.. BuiltIn.Select(c => new TagClassOverlay { Id = c.Id, Price = new(1, 1, 1, "NOK", 10) })], Day);
        Assert.Contains(Answer(classes, new()).Notices, n => n.Code == "currency-not-converted" && n.Text.Contains("NOK", StringComparison.Ordinal));
        Assert.DoesNotContain(Answer(classes, new() { Service = new() { Currency = "NOK", LabourRatePerHour = 300 } }).Notices, n => n.Code == "currency-not-converted");
    }

    // IEC 60079-14 (from memory): zone 1 needs Gb; IIC covers IIB, T6 covers T4.
    [Fact]
    public void Recommend_InAZone_OnlyTheCertifiedClassPassesAndOnlyWhileInForce()
    {
        var robust = BuiltIn.First(c => c.Family == "screw-mount-hard-tag");
        var classes = TagClassOverlay.Apply(BuiltIn, [new() { Id = robust.Id, Certificate = Certificate }], Day);
        var record = new AssetRecord { Environment = new() { HazardousArea = new() { Zone = "1", Group = "IIB", TemperatureClass = "T4" } } };
        Assert.All(Answer(classes, record).Candidates, c => Assert.Equal(c.TagClass.Id == robust.Id, c.Rejections.All(r => r.Family != "explosive-atmosphere")));

        var later = new RecommendationContext(classes, "v", RangeCalibrations.None, Day.AddDays(1));
        Assert.All(
            RecommendationEngine.Recommend(record, new(IncludeAll: true), later).Candidates,
            c => Assert.Contains(c.Rejections, r => r.Family == "explosive-atmosphere" && r.Verdict == RuleVerdict.Fail));
        // A stored answer of the day before is stale.
        Assert.Equal("v", later.On(Day).AnswerVersion);
        Assert.Matches("^v\\.[0-9a-f]{8}$", later.AnswerVersion);
    }

    private static TagClassOverlay Own(string id) => new() { Id = id, Own = BuiltIn[0] with { Id = id } };

    private static RecommendationAnswer Answer(IReadOnlyList<TagClass> classes, AssetRecord record) => RecommendationEngine.Recommend(
        record, new(IncludeAll: true), new(classes, TagClassCatalogue.VersionOf(classes), RangeCalibrations.None, Day));

    // Over the whole of the ranges of the records.
    private static readonly Gen<TagClass> AnyOwnClass =
        Gen.Select(Any(BuiltIn), Gen.Double[0.5, 700], Gen.Double[0.1, 1], Gen.Double[0.01, 100])
            .Select((c, length, ratio, height) => c with { Id = "own", Size = new(length, Math.Min(500, Math.Max(0.1, length * ratio)), height) })
            .Select(Gen.Select(Within(-60, 15), Within(0, 300), Within(0, 1), Within(-60, 0)), Gen.Select(Within(0, 1), Within(0, 700), Within(0, 60), Within(0, 20), Within(0, 100_000)))
            .Select((c, uhf, other) => c with
            {
                Antenna = c.Antenna with
                {
                    ReferenceGainDbi = uhf.Item1, BandwidthMhz = uhf.Item2, StandoffMm = uhf.Item3 * c.Size.HeightMm, ThresholdDbm = uhf.Item4,
                    ModulationFactor = other.Item1, ReferencePlateMm = c.Antenna.Kind == AntennaKind.GroundPlane ? other.Item2 : 0,
                    OffMetalPenaltyDb = other.Item3, ThresholdAPerM = other.Item4, CoilAreaMm2 = other.Item5,
                },
            })
            .Select(Gen.Double[0.5, 6], Gen.Double[0.1, 100], Gen.Double[0.1, 1000])
            .Select((c, shape, scale, failures) => c with { Life = new(shape, scale, failures) });

    // Both ends, next to nothing, and between.
    private static Gen<double> Within(double low, double high) =>
        Gen.OneOf<double>(Gen.Double[low, high], Gen.Double[low, high], Gen.Const(low), Gen.Const(high), Gen.Const(Math.Clamp(1e-320, low, high)), Gen.Const(Math.Clamp(0.011, low, high)));

    private static Gen<T> Any<T>(IReadOnlyList<T> rows) => Gen.Int[0, rows.Count - 1].Select(i => rows[i]);
}
