using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>
/// A range finding as it is kept: ids of the tables instead of rows, every gap filled when it was recorded, so that it means the
/// same later. One finding a tag: a tag counted several times makes the calibration too sure.
/// </summary>
public sealed record RangeMeasurement
{
    /// <summary>Tag class.</summary>
    public required string TagClassId { get; init; }

    /// <summary>Material at the surface.</summary>
    public required string MaterialId { get; init; }

    /// <summary>Thickness of that material in mm.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>Material directly behind it.</summary>
    public required string BackingId { get; init; }

    /// <summary>Longer side of the surface in mm.</summary>
    public required double LengthMm { get; init; }

    /// <summary>Shorter side of the surface in mm.</summary>
    public required double WidthMm { get; init; }

    /// <summary>Distance in mm that the fixing added under the tag.</summary>
    public required double AddedStandoffMm { get; init; }

    /// <summary>What the distance means.</summary>
    public required FieldRangeKind Kind { get; init; }

    /// <summary>The distance found, m.</summary>
    public required double RangeM { get; init; }

    /// <summary>
    /// <see cref="FieldRangeKind.MeasuredBecauseItFailed"/>: distance in m of the check that the tag failed;
    /// <see cref="FieldRangeKind.Between"/>: distance in m at which it did not answer.
    /// </summary>
    public double? CheckM { get; init; }

    /// <summary>Radio region.</summary>
    public required string RegionId { get; init; }

    /// <summary>Kind of reader.</summary>
    public required ReaderKind ReaderKind { get; init; }

    /// <summary>Radiated power in dBm EIRP; absent: the reader kind's.</summary>
    public double? EirpDbm { get; init; }

    /// <summary>Gain of the reader's antenna in dBi; absent: the reader kind's.</summary>
    public double? ReaderGainDbi { get; init; }

    /// <summary>Weakest reply the reader decodes in dBm; absent: the reader kind's.</summary>
    public double? ReaderSensitivityDbm { get; init; }

    /// <summary>Polarisation of the reader's antenna.</summary>
    public required ReaderPolarization Polarization { get; init; }

    /// <summary>Kind of place.</summary>
    public required string SiteId { get; init; }

    /// <summary>How the tag's axis lay.</summary>
    public required TagOrientation TagOrientation { get; init; }

    /// <summary>When it was measured.</summary>
    public DateTimeOffset? MeasuredAt { get; init; }

    /// <summary>The user's remark.</summary>
    public string? Note { get; init; }

    /// <summary>
    /// The finding as a shift of the class's gain against the calculated one (see <see cref="RangeCalibration.ShiftOf"/>).
    /// </summary>
    /// <param name="tag">The class, with the figures of today.</param>
    /// <returns>The shift, dB; null when the reader cannot read the class or a table no longer has one of the ids.</returns>
    public ShiftObservation? ShiftOf(TagClass tag)
    {
        if (Materials.Table.Find(MaterialId) is not { } material || Materials.Table.Find(BackingId) is not { } backing
            || RadioTables.Regions.Find(RegionId) is not { } region || RadioTables.Sites.Find(SiteId) is not { } site)
        {
            return null;
        }

        var surface = new MountedSurface
        {
            Material = material, ThicknessMm = ThicknessMm, Backing = backing, AddedStandoffMm = AddedStandoffMm, LengthMm = LengthMm, WidthMm = WidthMm,
        };
        var reading = new ReadingSituation
        {
            Region = region, Reader = RadioTables.Readers[ReaderKind.ToString()], Site = site, EirpDbm = EirpDbm, ReaderGainDbi = ReaderGainDbi,
            ReaderSensitivityDbm = ReaderSensitivityDbm, Polarization = Polarization, TagOrientation = TagOrientation, Looks = 1,
        };
        return RangeCalibration.ShiftOf(tag, surface, new(reading, RangeM, Kind, CheckM));
    }
}
