using CsCheck;
using TagService.Domain.Fitting;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;
using TagService.Domain.Tests.Radio;
using TagService.Domain.Tests.Suitability;

namespace TagService.Domain.Tests.Fitting;

/// <summary>The acceptance check against Friis worked by hand in watts, and against both limits of the link over all readers and places.</summary>
public sealed class AcceptanceCheckTests
{
    private static readonly AttachmentMethod Label = AttachmentMethods.Table["acrylic-label"];

    private static readonly Gen<(ResolvedAsset Asset, TagClass TagClass)> AnyUhfCase =
        Gen.Select(
            Gen.OneOf([.. RadioTables.Regions.All]), Gen.OneOf([.. RadioTables.Readers.All.Where(r => r.EirpDbm is not null)]),
            Gen.OneOf([.. RadioTables.Sites.All]), Gen.OneOf([.. TagClassCatalogue.BuiltIn.All.Where(c => c.Technology == TagTechnology.Uhf)]),
            Gen.Double[0.05, 30], Gen.Double[-100, -50])
            .Select((region, reader, site, tagClass, wantedM, sensitivityDbm) => (
                Asset(wantedM, TestRows.Reading() with { Region = region, Reader = reader, Site = site, ReaderSensitivityDbm = sensitivityDbm }), tagClass));

    /// <summary>
    /// Friis (1946), power density P/(4 pi d^2): 4 W at 4 m and 4 W/64 = 62.5 mW (17.96 dBm) at 0.5 m both give 19.9 mW/m^2.
    /// A 6 dBi antenna makes 11.96 dBm at its connector of that.
    /// </summary>
    [Fact]
    public void Uhf_FreeSpaceFourMetres_HasTheSamePowerDensityAtHalfAMetre()
    {
        var check = Check(Asset(4, FourWatts), TestRows.LargeLabel);

        Assert.Equal(0.5, check.DistanceM);
        Assert.Equal(10 * Math.Log10(62.5), check.EirpDbm, 3);
        Assert.Equal(11.96, check.ConductedDbm, 2);
        Assert.Equal(4 / (4 * Math.PI * 16), Watts(check.EirpDbm) / (4 * Math.PI * 0.25), 6);
        Assert.False(check.ReplyLimits);
    }

    /// <summary>
    /// Where the reply is the limit: P_rx = P G_R G^2 M (lambda/4 pi d)^4 (Griffin and Durgin 2009, from memory; RFID Handbook 2008,
    /// eq. 4.6, read). The weakest tag that still answers at 4 m has, at the check, exactly the reader's sensitivity or exactly the
    /// chip's threshold left, whichever asks for more.
    /// </summary>
    [Theory]
    [InlineData(-62)]
    [InlineData(-75)]
    [InlineData(-50)]
    public void Uhf_ReplyLimits_WeakestTagOfTheWantedRangeJustAnswersAtTheCheck(double sensitivityDbm)
    {
        var reading = FourWatts with { ReaderSensitivityDbm = sensitivityDbm };
        const double threshold = 1.58489319e-5; // -18 dBm in W
        const double modulation = 0.25;
        var sensitivity = Watts(sensitivityDbm);
        var readerGain = Math.Pow(10, 0.6);
        double Spread(double distanceM) => Math.Pow(299_792_458 / 915e6 / (4 * Math.PI * distanceM), 2);
        double Chip(double watts, double distanceM, double gain) => watts * gain * Spread(distanceM);
        double Reply(double watts, double distanceM, double gain) => watts * readerGain * gain * gain * modulation * Math.Pow(Spread(distanceM), 2);

        var check = Check(Asset(4, reading), TestRows.LargeLabel);
        var weakest = Math.Max(threshold / (4 * Spread(4)), Math.Sqrt(sensitivity / (4 * readerGain * modulation)) / Spread(4));

        var powered = Chip(Watts(check.EirpDbm), check.DistanceM, weakest) / threshold;
        var heard = Reply(Watts(check.EirpDbm), check.DistanceM, weakest) / sensitivity;
        Assert.Equal(1, Math.Min(powered, heard), 3);
        Assert.Equal(Reply(4, 4, weakest) / sensitivity < Chip(4, 4, weakest) / threshold, check.ReplyLimits);
    }

    /// <summary>Both limits of the link budget, over every reader, region, site and class: the check decides as the wanted distance does.</summary>
    [Fact]
    public void Uhf_TagOfAnyGain_PassesExactlyWhereItWouldAnswerAtTheWantedDistance() =>
        Gen.Select(AnyUhfCase, Gen.Double[-40, 20]).Sample((c, gainDbi) =>
        {
            var check = Check(c.Asset, c.TagClass);
            var scene = new RadioScene(TestRows.On(TestRows.Cardboard), c.Asset.Reading);
            double Margin(double eirpDbm, double distanceM) => Math.Min(
                LinkBudget.ForwardLossDb(eirpDbm, gainDbi, 0, c.TagClass.Antenna.ThresholdDbm),
                LinkBudget.ReturnLossDb(
                    eirpDbm, scene.ReaderGainDbi, gainDbi, 0, 10 * Math.Log10(c.TagClass.Antenna.ModulationFactor), scene.SensitivityDbm))
                - scene.Path.LossDb(distanceM);

            var inUse = Margin(check.WantedEirpDbm, check.WantedRangeM);
            if (Math.Abs(inUse) > 1e-6)
                Assert.Equal(inUse > 0, Margin(check.EirpDbm, check.DistanceM) > 0);
        });

    [Fact]
    public void Uhf_AnyCase_NeitherFartherNorStrongerThanInUseNorBelowTheLowestPower() => AnyUhfCase.Sample(c =>
    {
        var check = Check(c.Asset, c.TagClass);
        Assert.InRange(check.DistanceM, 0.04, check.WantedRangeM);
        Assert.True(check.EirpDbm <= check.WantedEirpDbm);
        Assert.True(check.ConductedDbm >= FittingPlanning.LowestConductedDbm - 1e-6 || check.DistanceM == check.WantedRangeM);
        Assert.True(check.LengthenedForLowestPower || check.DistanceM == Math.Min(FittingPlanning.CheckDistanceM, check.WantedRangeM));
    });

    /// <summary>The farther a tag has to answer in use, the harder the check: less power at the same distance, or the same power from farther.</summary>
    [Fact]
    public void Uhf_WantedFarther_IsCheckedHarder() => Gen.Select(AnyUhfCase, Gen.Double[1.01, 3]).Sample((c, factor) =>
    {
        var near = Check(c.Asset, c.TagClass);
        var far = Check(c.Asset with { RequiredRangeM = c.Asset.RequiredRangeM * factor }, c.TagClass);
        var scene = new RadioScene(TestRows.On(TestRows.Cardboard), c.Asset.Reading);
        Assert.True(far.EirpDbm - scene.Path.LossDb(far.DistanceM) < near.EirpDbm - scene.Path.LossDb(near.DistanceM) + 1e-9);
    });

    [Fact]
    public void Hf_AnyClass_IsCheckedWithTheReaderAtTheWantedDistance() => Assert.All(TestRows.HfClasses, tagClass =>
    {
        var asset = Asset(0.02, TestRows.Reading(reader: ReaderKind.Phone));
        Assert.Equal(new HfCheck(0.02, asset.Reading.Reader.Name), AcceptanceCheck.For(asset, tagClass, Label));
    });

    [Fact]
    public void Uhf_TelephoneAsReader_HasNoCheckAndSaysWhy()
    {
        var none = Assert.IsType<NoCheck>(AcceptanceCheck.For(Asset(1, TestRows.Reading(reader: ReaderKind.Phone)), TestRows.LargeLabel, Label));
        Assert.Contains("no UHF side", none.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void CheckEirpDbm_CheckFartherThanWanted_Throws() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => AcceptanceCheck.CheckEirpDbm(36, 40, 41, 0));

    // 915 MHz, 6 dBi, free space.
    private static ReadingSituation FourWatts { get; } =
        TestRows.Reading("us", ReaderKind.Fixed, "free-space") with { EirpDbm = 10 * Math.Log10(4000) };

    private static UhfCheck Check(ResolvedAsset asset, TagClass tagClass) =>
        Assert.IsType<UhfCheck>(AcceptanceCheck.For(asset, tagClass, Label));

    private static ResolvedAsset Asset(double wantedM, ReadingSituation reading) =>
        TestAssets.Benign(TestRows.Cardboard) with { RequiredRangeM = wantedM, Reading = reading };

    private static double Watts(double dbm) => Math.Pow(10, (dbm - 30) / 10);
}
