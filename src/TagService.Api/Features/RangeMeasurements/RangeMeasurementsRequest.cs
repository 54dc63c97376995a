using System.ComponentModel.DataAnnotations;
using TagService.Api.Features.TagClasses;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>Ranges found in the field; one entry for each tag. A tag counted several times makes the calibration too sure.</summary>
public sealed record RangeMeasurementsRequest
{
    /// <summary>Most findings in one request.</summary>
    internal const int MaxItems = 1000;

    /// <summary>The findings.</summary>
    [MinLength(1), MaxLength(MaxItems)]
    public required IReadOnlyList<RangeMeasurementRequest> Measurements { get; init; }
}

/// <summary>What somebody found about one tag of a class on a surface, at a stated power and reader.</summary>
public sealed record RangeMeasurementRequest
{
    /// <summary>Id in /v1/tag-classes.</summary>
    [MaxLength(60)]
    public required string TagClassId { get; init; }

    /// <summary>Material at the surface: an id or name of /v1/materials, or a register's word for it.</summary>
    [MaxLength(200)]
    public required string Material { get; init; }

    /// <summary>Thickness of that material in mm; the material's typical one if absent.</summary>
    [Range(0.01, 10_000)]
    public double? ThicknessMm { get; init; }

    /// <summary>What is directly behind it: air (if absent), metal, water, or a material of /v1/materials.</summary>
    [MaxLength(200)]
    public string? Backing { get; init; }

    /// <summary>Longer side of the surface in mm; 500 if absent.</summary>
    [Range(1, 100_000)]
    public double? LengthMm { get; init; }

    /// <summary>Shorter side of the surface in mm; 300, or the length if that is less, if absent.</summary>
    [Range(1, 100_000)]
    public double? WidthMm { get; init; }

    /// <summary>Id in /v1/attachment-methods, for the spacing it adds; none if absent.</summary>
    [MaxLength(60)]
    public string? AttachmentMethod { get; init; }

    /// <summary>What the distance means.</summary>
    public required RangeFinding Kind { get; init; }

    /// <summary>The distance found in m.</summary>
    [Range(0.005, 200)]
    public required double RangeM { get; init; }

    /// <summary>Kind failed-check: distance in m of the check that the tag failed. Kind between: distance in m at which it did not answer.</summary>
    [Range(0.005, 200)]
    public double? CheckM { get; init; }

    /// <summary>Reader, power and place.</summary>
    public required MeasuredReadingRequest Reading { get; init; }

    /// <summary>When it was measured.</summary>
    public DateTimeOffset? MeasuredAt { get; init; }

    /// <summary>Your own remark.</summary>
    [MaxLength(500), RegularExpression(TagClassRequest.Storable)]
    public string? Note { get; init; }
}

/// <summary>Reader, power and place of a finding. Power and reader decide what a distance is worth: state them if they are known.</summary>
public sealed record MeasuredReadingRequest
{
    /// <summary>Radio region: an id of /v1/radio-regions or an ISO 3166 country code.</summary>
    [MaxLength(60)]
    public required string Region { get; init; }

    /// <summary>Kind of reader.</summary>
    public required ReaderKind ReaderKind { get; init; }

    /// <summary>Power radiated by the reader in dBm EIRP, capped at the region's limit; the reader kind's if absent.</summary>
    [Range(-30, 60)]
    public double? EirpDbm { get; init; }

    /// <summary>Gain of the reader's antenna in dBi; the reader kind's if absent.</summary>
    [Range(-30, 30)]
    public double? ReaderGainDbi { get; init; }

    /// <summary>Weakest reply the reader decodes, in dBm; the reader kind's if absent.</summary>
    [Range(-130, 0)]
    public double? ReaderSensitivityDbm { get; init; }

    /// <summary>Polarisation of the reader's antenna; circular if absent.</summary>
    public ReaderPolarization? Polarization { get; init; }

    /// <summary>Kind of place, an id of /v1/site-models; warehouse if absent.</summary>
    [MaxLength(60)]
    public string? Site { get; init; }

    /// <summary>How the tag's axis lay to the reader's polarisation; any if absent.</summary>
    public TagOrientation? TagOrientation { get; init; }
}

/// <summary>What a distance found in the field means.</summary>
public enum RangeFinding
{
    /// <summary>The range itself, of a tag that was not picked for its range.</summary>
    Measured,

    /// <summary>The tag answers at this distance; how much farther was not tried.</summary>
    AnswersAtLeast,

    /// <summary>The tag does not answer at this distance, and tags that do are reported too.</summary>
    SilentAt,

    /// <summary>The range of a tag that was measured only because it failed a check at checkM: a selected case, which says less.</summary>
    FailedCheck,

    /// <summary>The tag answers at rangeM and not at checkM.</summary>
    Between,
}
