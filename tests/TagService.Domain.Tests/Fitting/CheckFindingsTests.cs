using CsCheck;
using TagService.Domain.Attachments;
using TagService.Domain.Fitting;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Fitting;

/// <summary>Which checks count as measured ranges, and as what. Assets and distances are invented.</summary>
public sealed class CheckFindingsTests
{
    private static readonly DateTimeOffset Now = new(2026, 5, 4, 12, 0, 0, TimeSpan.Zero);

    private static readonly AssetRecord Pump = new()
    {
        AssetId = "P-1", Category = "centrifugal pump", Surface = new() { Material = "cast iron", ThicknessMm = 9 }, Reading = new() { Region = "eu", ReaderKind = ReaderKind.Handheld, ReaderGainDbi = 4 },
    };

    private static readonly Attachment Fitted = new()
    {
        Id = new("0196a3c4-5400-7d11-8a41-7be9a3b0c955"), Tag = "8004:95211415678", AssetId = "P-1", RecordedAt = Now, TagClassId = "hard-metal-mount-large", MethodId = "screws",
        Start = Moment.At(Now.AddHours(-1)), Check = new() { AnsweredAtM = 3, EirpDbm = 30 },
    };

    [Fact]
    public void Of_AllFactsGiven_TakesThemOverAndFillsTheRestFromTheAsset()
    {
        var m = Usable(Fitted, Pump).Measurement;
        Assert.Equal(
            ("hard-metal-mount-large", "cast-iron", 9.0, FieldRangeKind.AnswersAt, 3.0, null, "eu", ReaderKind.Handheld, 30.0),
            (m.TagClassId, m.MaterialId, m.ThicknessMm, m.Kind, m.RangeM, m.CheckM, m.RegionId, m.ReaderKind, m.EirpDbm));
        Assert.Equal((4.0, Now.AddHours(-1)), (m.ReaderGainDbi, m.MeasuredAt));

        // Another reader than the asset's: its antenna is not known to be the asset's.
        var other = Usable(Fitted with { Check = Fitted.Check with { ReaderKind = ReaderKind.Fixed, RegionId = "us", SiteId = "plant" } }, Pump).Measurement;
        Assert.Equal((ReaderKind.Fixed, null, "us", "plant"), (other.ReaderKind, other.ReaderGainDbi, other.RegionId, other.SiteId));
    }

    // What is recorded of one tag is one finding, of the kind that its distances make: radio.md's measurement, bound and selected case.
    [Theory]
    [InlineData(3.0, null, null, FieldRangeKind.Measured, 3.0, null)]
    [InlineData(null, 2.0, null, FieldRangeKind.AnswersAt, 2.0, null)]
    [InlineData(null, null, 2.0, FieldRangeKind.SilentAt, 2.0, null)]
    [InlineData(null, 2.0, 3.0, FieldRangeKind.Between, 2.0, 3.0)]
    [InlineData(null, 2.0, 2.0, FieldRangeKind.Measured, 2.0, null)]
    [InlineData(3.0, 2.0, null, FieldRangeKind.Measured, 3.0, null)]
    [InlineData(1.5, null, 2.0, FieldRangeKind.MeasuredBecauseItFailed, 1.5, 2.0)]
    [InlineData(1.5, 1.0, 2.0, FieldRangeKind.MeasuredBecauseItFailed, 1.5, 2.0)]
    [InlineData(2.0, null, 2.0, FieldRangeKind.Measured, 2.0, null)]
    public void Of_Distances_AreOneFindingOfTheirKind(double? measured, double? answered, double? silent, FieldRangeKind kind, double rangeM, double? checkM)
    {
        var m = Usable(Fitted with { Check = new() { MeasuredRangeM = measured, AnsweredAtM = answered, SilentAtM = silent, EirpDbm = 30 } }, Pump).Measurement;
        Assert.Equal((kind, rangeM, checkM), (m.Kind, m.RangeM, m.CheckM));
    }

    [Fact]
    public void Of_AFactMissing_SaysWhich()
    {
        Assert.Equal("tagClassId", NotUsable(Fitted with { TagClassId = null }, Pump).Field);
        Assert.Equal("tagClassId", NotUsable(Fitted with { TagClassId = "gone" }, Pump).Field);
        Assert.Equal("checkEirpDbm", NotUsable(Fitted with { Check = new() { AnsweredAtM = 3 } }, Pump).Field);
        // The profile of pumps has a material; what is learnt must not rest on a guess.
        Assert.Equal("surface.material", NotUsable(Fitted, Pump with { Surface = null }).Field);
        Assert.Contains("unobtainium", NotUsable(Fitted, Pump with { Surface = new() { Material = "unobtainium" } }).Because, StringComparison.Ordinal);
        // On metal a foam tape and a bare adhesive are two different things.
        var label = TagClassCatalogue.BuiltIn.All.First(c => c.Technology == TagTechnology.Uhf && c.AttachmentMethods.Select(m => AttachmentMethods.Table[m].AddedStandoffMm).Distinct().Count() > 1);
        Assert.Equal("attachmentMethod", NotUsable(Fitted with { TagClassId = label.Id, MethodId = null }, Pump).Field);
        Assert.Equal("checkReaderKind", NotUsable(Fitted with { Check = Fitted.Check with { ReaderKind = ReaderKind.Phone } }, Pump).Field);
        Assert.Equal("answeredAtM", NotUsable(Fitted with { Check = new() { AnsweredAtM = 190, EirpDbm = -30 } }, Pump).Field);
        Assert.Equal("silentAtM", NotUsable(Fitted with { Check = new() { SilentAtM = 0.005, EirpDbm = 60 } }, Pump).Field);
    }

    [Fact]
    public void Of_NothingCheckedOrNeverHappened_IsNoFinding()
    {
        Assert.IsType<CheckFinding.NotChecked>(Of(Fitted with { Check = new() }, Pump));
        Assert.IsType<CheckFinding.NotChecked>(Of(Fitted with { End = new(Moment.Unknown, "never-happened") }, Pump));
        // An end of another kind takes nothing back: it was so when it was fitted.
        Usable(Fitted with { End = new(Moment.Unknown, "fell-off") }, Pump);
    }

    // HF has no power setting to record, and every class can be used or says why not: the same shift as the calibration's own.
    [Fact]
    public void Of_EveryClass_IsUsableExactlyWhenItsReaderReadsItAndTheDistanceIsPlausible() => Gen.Select(
        Gen.OneOf([.. TagClassCatalogue.BuiltIn.All.Select(Gen.Const)]), Gen.Enum<ReaderKind>(), Gen.Double[0.01, 20]).Sample((tagClass, reader, distance) =>
        {
            var check = new FittingCheck { MeasuredRangeM = distance, ReaderKind = reader, EirpDbm = tagClass.Technology == TagTechnology.Uhf ? 30 : null };
            var finding = Of(Fitted with { TagClassId = tagClass.Id, MethodId = tagClass.AttachmentMethods[0], Check = check }, Pump);
            var asset = Domain.Profiles.ProfileResolution.Resolve(Pump).Asset;
            var surface = new MountedSurface
            {
                Material = asset.Material, ThicknessMm = asset.ThicknessMm, Backing = asset.Backing, LengthMm = Math.Max(asset.LengthMm, asset.WidthMm),
                WidthMm = Math.Min(asset.LengthMm, asset.WidthMm), AddedStandoffMm = AttachmentMethods.Table[tagClass.AttachmentMethods[0]].AddedStandoffMm,
            };
            var reading = asset.Reading with
            {
                Reader = RadioTables.Readers[reader.ToString()], EirpDbm = check.EirpDbm, ReaderGainDbi = reader == ReaderKind.Handheld ? 4 : null, TagOrientation = TagOrientation.Any, Looks = 1,
            };
            var expected = RangeCalibration.ShiftOf(tagClass, surface, new(reading, distance, FieldRangeKind.Measured));
            if (expected is { } shift && PairCalibration.IsPlausible(shift))
                Assert.Equal(shift, Assert.IsType<CheckFinding.Usable>(finding).Measurement.ShiftOf(tagClass));
            else
                Assert.IsType<CheckFinding.NotUsable>(finding);
        }, iter: 500);

    private static CheckFinding Of(Attachment attachment, AssetRecord asset) => CheckFindings.Of(attachment, asset, id => TagClassCatalogue.BuiltIn.All.FirstOrDefault(c => c.Id == id));

    private static CheckFinding.Usable Usable(Attachment attachment, AssetRecord asset) => Assert.IsType<CheckFinding.Usable>(Of(attachment, asset));

    private static CheckFinding.NotUsable NotUsable(Attachment attachment, AssetRecord asset)
    {
        var finding = Assert.IsType<CheckFinding.NotUsable>(Of(attachment, asset));
        Assert.True(finding.Because.Length > 20 && finding.Accepted.Length > 10);
        return finding;
    }
}
