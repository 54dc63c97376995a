using CsCheck;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>Orderings of common practice over all classes of the catalogue, materials, readers, regions and sites.</summary>
public sealed class RangePredictionProperties
{
    private static readonly TagClass[] Classes = [.. TagClassCatalogue.BuiltIn.All, .. TestRows.Classes];
    private static readonly TagClass[] Dipoles = [.. Classes.Where(c => c.Antenna.Kind == AntennaKind.Dipole)];
    private static readonly TagClass[] GroundPlanes = [.. Classes.Where(c => c.Antenna.Kind == AntennaKind.GroundPlane)];

    private static readonly Gen<TagClass> AnyClass = Gen.OneOf(Classes);
    private static readonly Gen<Material> AnyMaterial = Gen.OneOf([.. Materials.Table.All, .. TestRows.Materials]);

    private static readonly Gen<MountedSurface> AnySurface =
        Gen.Select(AnyMaterial, Gen.Double[0.1, 250], AnyMaterial, Gen.Double[0, 30], Gen.Double[20, 800], Gen.Double[10, 500])
            .Select((m, t, b, h, l, w) => TestRows.On(m, t, b, h, l, w));

    private static readonly Gen<ReadingSituation> AnyReading =
        Gen.Select(
            Gen.OneOf([.. RadioTables.Regions.All]), Gen.OneOf([.. RadioTables.Readers.All]),
            Gen.OneOf([.. RadioTables.Sites.All]), Gen.Enum<ReaderPolarization>(), Gen.Enum<TagOrientation>(), Gen.Int[1, 30])
            .Select((region, reader, site, polarization, orientation, looks) => new ReadingSituation
            {
                Region = region,
                Reader = reader,
                Site = site,
                Polarization = polarization,
                TagOrientation = orientation,
                Looks = looks,
            });

    private static readonly Gen<RangePrediction> AnyPrediction =
        Gen.Select(AnyClass, AnySurface, AnyReading).Select((c, s, r) => RangePredictor.Predict(c, s, r));

    [Fact]
    public void Quantiles_Always_AreOrderedAndFinite() =>
        AnyPrediction.Sample(p =>
        {
            Assert.True(p.P10M <= p.P50M && p.P50M <= p.P90M);
            Assert.True(double.IsFinite(p.P90M) && p.P10M >= 0);
            Assert.Equal(p.RangeQuantileM(0.5), p.P50M, 0.001 * p.P50M);
            Assert.Equal(p.LimitedBy is RangeLimit.DoesNotRead or RangeLimit.WrongReader, p.Estimate.DoesNotReadBecause is not null);
        });

    [Fact]
    public void Budget_Always_AddsUpToTheMedianRange() =>
        AnyPrediction.Where(p => p.LimitedBy != RangeLimit.WrongReader).Sample(p =>
        {
            var lines = p.Explain();
            var reply = lines.Select((l, i) => (l, i)).FirstOrDefault(x => x.l.Step.StartsWith("Reply:", StringComparison.Ordinal));
            var forward = reply.l is null ? lines : [.. lines.Take(reply.i)];
            var hf = p.Tag.Technology != TagTechnology.Uhf;

            // Running sums, ending at the chip's (or coil's) threshold.
            var end = hf ? 20 * Math.Log10(p.Tag.Antenna.ThresholdAPerM) : p.Tag.Antenna.ThresholdDbm;
            Assert.Equal(end, forward.Sum(l => l.ValueDb), 1e-6);
            Assert.Equal(end, forward[^1].LevelDbm, 1e-6);

            // The printed median range follows from the path-loss line alone.
            var path = forward[1].ValueDb;
            Assert.Equal(p.P50M, p.Distance(-path), Math.Max(1e-9, p.P50M * 1e-9));
            if (hf)
                return;
            var back = lines.Skip(reply.i).ToArray();
            Assert.Equal(p.Scene.SensitivityDbm, back.Sum(l => l.ValueDb), 1e-6);
            // One of the two has nothing left over, and none has less than nothing.
            Assert.Equal(0, Math.Max(forward[^1].ValueDb, back[^1].ValueDb), 1e-6);
            Assert.All(lines, l => Assert.False(string.IsNullOrWhiteSpace(l.Source)));
        });

    // Calculator and recommendation share their kernels: the same figures give the same range.
    [Fact]
    public void Calculator_SameFigures_GivesTheSameMedian() =>
        AnyPrediction.Where(p => p.Tag.Technology == TagTechnology.Uhf && p.LimitedBy != RangeLimit.WrongReader && p.Gain.TotalDbi > -60)
            .Sample(p =>
            {
                var s = p.Scene;
                var result = ReadRangeCalculation.Calculate(new()
                {
                    FrequencyMhz = s.FrequencyMhz,
                    EirpDbm = s.EirpDbm,
                    ReaderGainDbi = s.ReaderGainDbi,
                    ReaderSensitivityDbm = s.SensitivityDbm,
                    TagGainDbi = p.Gain.TotalDbi,
                    PowerThresholdDbm = p.Tag.Antenna.ThresholdDbm,
                    PolarizationLossDb = -p.MiddleDb,
                    PathExponent = s.Reading.Site.PathExponent,
                    BreakpointM = s.Reading.Site.BreakpointM,
                    ModulationFactor = p.Tag.Antenna.ModulationFactor,
                });
                Assert.Equal(p.P50M, result.RangeM, p.P50M * 1e-9);
            });

    [Fact]
    public void MorePower_Never_ShortensTheRange() =>
        Gen.Select(AnyClass, AnySurface, AnyReading, Gen.Double[0, 45], Gen.Double[0, 10]).Sample((c, s, r, eirp, more) =>
            Assert.True(
                RangePredictor.Predict(c, s, r with { EirpDbm = eirp + more }).P50M >= RangePredictor.Predict(c, s, r with { EirpDbm = eirp }).P50M));

    [Fact]
    public void BetterSensitivity_OfChipOrReader_NeverShortensTheRange() =>
        Gen.Select(AnyClass, AnySurface, AnyReading, Gen.Double[0, 10], Gen.Double[-100, -50]).Sample((c, s, r, better, reader) =>
        {
            var chip = c with { Antenna = c.Antenna with { ThresholdDbm = c.Antenna.ThresholdDbm - better, ThresholdAPerM = c.Antenna.ThresholdAPerM / (1 + better) } };
            Assert.True(RangePredictor.Predict(chip, s, r).P50M >= RangePredictor.Predict(c, s, r).P50M);
            Assert.True(
                RangePredictor.Predict(c, s, r with { ReaderSensitivityDbm = reader - better }).P50M
                >= RangePredictor.Predict(c, s, r with { ReaderSensitivityDbm = reader }).P50M);
        });

    [Fact]
    public void ReadProbability_FallsWithDistanceAndRisesWithLooks() =>
        Gen.Select(AnyPrediction, Gen.Double[0.01, 30], Gen.Double[1.01, 3], Gen.Int[1, 20], Gen.Int[1, 20]).Sample((p, d, factor, k, more) =>
        {
            var here = p.ReadProbability(d, k);
            Assert.InRange(here, 0, 1);
            Assert.True(p.ReadProbability(d * factor, k) <= here + 1e-9);
            // Two quadratures meet between one look (closed form) and two.
            Assert.True(p.ReadProbability(d, k + more) >= here - 2e-4);
        });

    [Fact]
    public void RangeAtProbability_Anywhere_InvertsTheReadProbability() =>
        Gen.Select(AnyPrediction, Gen.Double[0.05, 0.95], Gen.Int[1, 20]).Sample((p, probability, k) =>
        {
            var at = p.RangeAtProbability(probability, k);
            if (at > 0)
                Assert.Equal(probability, p.ReadProbability(at, k), 1e-4);
        }, iter: 200);

    // A dipole nearer than lambda/8 to metal never reads shorter with more spacing (common practice).
    [Fact]
    public void DipoleOnMetal_MoreSpacingBelowEighthWave_NeverReadsShorter() =>
        Gen.Select(Gen.OneOf(Dipoles), AnyReading.Where(r => r.Reader.EirpDbm is not null), Gen.Double[0, 40], Gen.Double[0, 40]).Sample((c, r, a, b) =>
        {
            var (low, high) = a < b ? (a, b) : (b, a);
            var near = RangePredictor.Predict(c, TestRows.On(TestRows.Steel, standoffMm: low), r);
            var far = RangePredictor.Predict(c, TestRows.On(TestRows.Steel, standoffMm: high), r);
            if (c.Antenna.StandoffMm + high < near.Scene.Band.WavelengthMm() / 8)
                Assert.True(far.P50M >= near.P50M * (1 - 1e-9), $"{c.Id}: {low} mm {near.P50M} m, {high} mm {far.P50M} m");
        });

    // A ground-plane class reads farther on metal than off (common practice), on its reference plate as on any.
    [Fact]
    public void GroundPlaneClass_OnMetal_ReadsFartherThanOff() =>
        Gen.Select(Gen.OneOf(GroundPlanes), AnyMaterial.Where(m => m.Kind != MaterialKind.Metal), AnyReading.Where(r => r.Reader.EirpDbm is not null), Gen.Double[30, 900])
            .Sample((c, m, r, plate) =>
            {
                var on = RangePredictor.Predict(c, TestRows.On(TestRows.Steel, lengthMm: plate, widthMm: plate), r);
                var off = RangePredictor.Predict(c, TestRows.On(m, lengthMm: plate, widthMm: plate), r);
                Assert.True(on.P50M > off.P50M, $"{c.Id} on {plate} mm against {m.Id}");
            });

    // Of one family, the larger reads no shorter on any surface large enough for it (common practice). Total depths to metal beyond
    // lambda/8 are left out: there the thicker foam of a larger class is past the best spacing.
    [Fact]
    public void LargerOfAFamily_OnTheSameSurface_ReadsNoShorter() =>
        Gen.Select(AnyMaterial, Gen.Double[0.3, 20], AnyMaterial, Gen.Double[0, 10], AnyReading).Sample((m, t, b, h, r) =>
        {
            var surface = TestRows.On(m, t, b, h, 600, 600);
            foreach (var family in TagClassCatalogue.BuiltIn.All.GroupBy(c => c.Family))
            {
                var ranges = family.OrderBy(c => c.Size.LengthMm * c.Size.WidthMm).Select(c => (c.Id, RangePredictor.Predict(c, surface, r).P50M)).ToArray();
                for (var i = 1; i < ranges.Length; i++)
                    Assert.True(ranges[i].P50M >= ranges[i - 1].P50M * (1 - 1e-9), $"{ranges[i]} against {ranges[i - 1]} on {m.Id}");
            }
        });

    // An unspaced label on metal does not read (common practice), and the answer gives the numbers.
    [Fact]
    public void UnspacedLabel_OnMetal_DoesNotReadAnywhere() =>
        Gen.Select(Gen.OneOf([.. Dipoles.Where(c => c.Antenna.StandoffMm == 0)]), AnyReading.Where(r => r.Reader.EirpDbm is not null)).Sample((c, r) =>
        {
            var p = RangePredictor.Predict(c, TestRows.On(TestRows.Steel), r);
            Assert.Equal(RangeLimit.DoesNotRead, p.LimitedBy);
            Assert.Matches(@"-\d+\.\d dBi.* m\..* mm above metal", p.Estimate.DoesNotReadBecause);
        });

    // Water never mirrors like metal: on it a spaced label gains nothing, and a label reads no farther than in air.
    [Fact]
    public void Dipole_BeforeWaterOrTissue_NeverReadsFartherThanInAir() =>
        Gen.Select(Gen.OneOf(Dipoles), Gen.OneOf([.. Materials.Table.All.Where(m => m.Kind is MaterialKind.Liquid or MaterialKind.Tissue), TestRows.Water, TestRows.Muscle]), Gen.Double[0, 200], AnyReading).Sample((c, wet, h, r) =>
            Assert.True(RangePredictor.Predict(c, TestRows.On(wet, standoffMm: h), r).P50M <= RangePredictor.Predict(c, TestRows.On(TestRows.Air), r).P50M));

    // At 13.56 MHz water does nothing (common practice); metal behind an unshielded coil shortens, ferrite gives part of it back.
    [Fact]
    public void HfClass_WaterAndMetal_OnlyMetalMatters()
    {
        var phone = TestRows.Reading(reader: ReaderKind.Phone);
        foreach (var c in Classes.Where(c => c.Technology != TagTechnology.Uhf))
        {
            var air = RangePredictor.Predict(c, TestRows.On(TestRows.Air), phone);
            Assert.Equal(air.P50M, RangePredictor.Predict(c, TestRows.On(TestRows.Water), phone).P50M);
            Assert.True(RangePredictor.Predict(c, TestRows.On(TestRows.Steel), phone).P50M <= air.P50M);
        }

        var bare = RangePredictor.Predict(TestRows.NfcDisc, TestRows.On(TestRows.Steel), phone);
        var ferrite = RangePredictor.Predict(TestRows.NfcFerriteDisc, TestRows.On(TestRows.Steel), phone);
        Assert.Equal(RangeLimit.DoesNotRead, bare.LimitedBy);
        Assert.Equal(RangeLimit.Field, ferrite.LimitedBy);
    }
}

internal static class BandExtensions
{
    public static double WavelengthMm(this RadioBand band) => 299_792.458 / ((band.LowMhz + band.HighMhz) / 2);
}
