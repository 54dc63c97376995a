using CsCheck;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>Findings as they are kept, over all classes, materials and kinds of place. Distances are invented.</summary>
public sealed class RangeMeasurementTests
{
    [Fact]
    public void ShiftOf_AnyClassMaterialAndPlace_IsFiniteAndRisesWithTheDistance() =>
        AnyMeasurement.Sample((tag, m) =>
        {
            var shift = m.ShiftOf(tag);
            var farther = (m with { RangeM = m.RangeM * 1.5 }).ShiftOf(tag);
            var canRead = tag.Technology == TagTechnology.Uhf ? m.ReaderKind != ReaderKind.Phone : shift is not null;
            Assert.Equal(canRead, shift is not null);
            if (shift is not { } s)
                return;
            Assert.True(double.IsFinite(s.ValueDb) && s.SigmaDb > 0 && farther!.Value.ValueDb > s.ValueDb);
        }, iter: 500);

    // The range that was calculated, found in the field, teaches no shift.
    [Fact]
    public void ShiftOf_TheCalculatedMedian_IsZero() =>
        AnyMeasurement.Where((tag, m) => m.ShiftOf(tag) is not null).Sample((tag, m) =>
        {
            var first = m.ShiftOf(tag)!.Value.ValueDb;
            var surface = new MountedSurface
            {
                Material = Materials.Table[m.MaterialId], ThicknessMm = m.ThicknessMm, Backing = Materials.Table[m.BackingId],
                AddedStandoffMm = m.AddedStandoffMm, LengthMm = m.LengthMm, WidthMm = m.WidthMm,
            };
            var reading = new ReadingSituation
            {
                Region = RadioTables.Regions[m.RegionId], Reader = RadioTables.Readers[m.ReaderKind.ToString()], Site = RadioTables.Sites[m.SiteId],
                Polarization = m.Polarization, TagOrientation = m.TagOrientation, Looks = 1,
            };
            var median = RangePredictor.Predict(tag, surface, reading).P50M;
            // A coil whose field is too weak even at contact has no median range.
            if (median > 0)
                Assert.Equal(0, (m with { RangeM = median }).ShiftOf(tag)!.Value.ValueDb, 1e-6);
            Assert.Equal(Math.Sign(m.RangeM - median), Math.Sign(first));
        }, iter: 300);

    [Theory]
    [InlineData(FieldRangeKind.Measured, 39, true)]
    [InlineData(FieldRangeKind.Measured, 41, false)]
    [InlineData(FieldRangeKind.Measured, -41, false)]
    [InlineData(FieldRangeKind.AnswersAt, -90, true)] // says next to nothing, and nothing wrong
    [InlineData(FieldRangeKind.AnswersAt, 41, false)]
    [InlineData(FieldRangeKind.SilentAt, 90, true)]
    [InlineData(FieldRangeKind.SilentAt, -41, false)]
    [InlineData(FieldRangeKind.MeasuredBecauseItFailed, 41, false)]
    [InlineData(FieldRangeKind.Between, 41, false, 60)]
    [InlineData(FieldRangeKind.Between, -90, false, -41)]
    [InlineData(FieldRangeKind.Between, -90, true, 90)]
    public void IsPlausible_ByKind_LooksAtTheSideThatSaysSomething(FieldRangeKind kind, double valueDb, bool plausible, double checkDb = 0) =>
        Assert.Equal(plausible, PairCalibration.IsPlausible(new(kind, valueDb, 3, checkDb)));

    [Fact]
    public void Of_FindingsOnDifferentSurfaces_CountsEachKindAndMovesWithThem() =>
        AnyMeasurement.Where((tag, m) => m.ShiftOf(tag) is { ValueDb: > 1 and < 40 }).Sample((tag, m) =>
        {
            var pair = PairCalibration.Of(tag, m.MaterialId, [m, m with { ThicknessMm = m.ThicknessMm * 2 }, m with { Kind = FieldRangeKind.AnswersAt }, m with { Kind = FieldRangeKind.MeasuredBecauseItFailed, CheckM = m.RangeM * 2 }, m with { Kind = FieldRangeKind.Between, CheckM = m.RangeM * 2 }]);
            Assert.Equal(5, pair.Posterior.Observations);
            Assert.Equal((2, 1, 0, 1, 1), (pair.Measured, pair.AnswersAt, pair.SilentAt, pair.FailedCheck, pair.Between));
            Assert.True(pair.Posterior.SigmaDb < CalibrationPosterior.Prior.SigmaDb);
        }, iter: 50);

    [Fact]
    public void BasisOf_AnElectricalFigureChanged_Changes()
    {
        var tag = TagClassCatalogue.BuiltIn.All[0];
        Assert.NotEqual(PairCalibration.BasisOf(tag), PairCalibration.BasisOf(tag with { Antenna = tag.Antenna with { ThresholdDbm = -19 } }));
        Assert.Equal(PairCalibration.BasisOf(tag), PairCalibration.BasisOf(tag with { Price = tag.Price with { Typical = 9 } }));
    }

    [Fact]
    public void Calibrations_VersionOnAMaterial_ChangesWithAnyPosteriorOnIt()
    {
        RangeCalibrations one = new([new(("a", "steel"), new(1, 1.5, 2))]), other = new([new(("a", "steel"), new(1, 1.501, 2))]);
        Assert.Equal("", RangeCalibrations.None.VersionOn("steel"));
        Assert.Equal("", one.VersionOn("wood"));
        Assert.Matches("^[0-9a-f]{8}$", one.VersionOn("steel"));
        Assert.NotEqual(one.VersionOn("steel"), other.VersionOn("steel"));
        Assert.Equal(one.VersionOn("steel"), new RangeCalibrations([new(("a", "steel"), new(1, 1.5000001, 2))]).VersionOn("steel"));
        Assert.Equal(one.VersionOn("steel"), new RangeCalibrations([new(("a", "steel"), new(1, 1.5, 2)), new(("a", "wood"), new(7, -3, 1))]).VersionOn("steel"));
        Assert.NotEqual(one.VersionOn("steel"), new RangeCalibrations([new(("a", "steel"), new(1, 1.5, 2)), new(("b", "steel"), new(7, -3, 1))]).VersionOn("steel"));
    }

    private static readonly Gen<(TagClass, RangeMeasurement)> AnyMeasurement =
        Gen.Select(
            Any(TagClassCatalogue.BuiltIn.All), Any(Materials.Table.All), Any(RadioTables.Sites.All),
            Any(RadioTables.Regions.All), Gen.Enum<ReaderKind>(), Gen.Double[0.01, 30], Gen.Double[0.1, 200])
            .Select((tag, material, site, region, reader, range, thickness) => (tag, new RangeMeasurement
            {
                TagClassId = tag.Id, MaterialId = material.Id, ThicknessMm = thickness, BackingId = Materials.Air.Id, LengthMm = 500, WidthMm = 300,
                AddedStandoffMm = 0, Kind = FieldRangeKind.Measured, RangeM = range, RegionId = region.Id, ReaderKind = reader,
                Polarization = ReaderPolarization.Circular, SiteId = site.Id, TagOrientation = TagOrientation.Any,
            }));

    private static Gen<T> Any<T>(IReadOnlyList<T> rows) => Gen.Int[0, rows.Count - 1].Select(i => rows[i]);
}
