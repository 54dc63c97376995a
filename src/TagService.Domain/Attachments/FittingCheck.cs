using TagService.Domain.Recommendations;

namespace TagService.Domain.Attachments;

/// <summary>What the fitter found when reading the tag in place. Distances are worth what is known of reader and power.</summary>
public sealed record FittingCheck
{
    /// <summary>Distance in m up to which it answers, measured.</summary>
    public double? MeasuredRangeM { get; init; }

    /// <summary>A distance in m at which it answered; how much farther was not tried.</summary>
    public double? AnsweredAtM { get; init; }

    /// <summary>A distance in m at which it did not answer.</summary>
    public double? SilentAtM { get; init; }

    /// <summary>Power in dBm EIRP.</summary>
    public double? EirpDbm { get; init; }

    /// <summary>Radio region, an id of its table.</summary>
    public string? RegionId { get; init; }

    /// <summary>Kind of reader.</summary>
    public ReaderKind? ReaderKind { get; init; }

    /// <summary>Kind of place, an id of its table.</summary>
    public string? SiteId { get; init; }

    /// <summary>Is any distance given?</summary>
    public bool HasDistance => (MeasuredRangeM ?? AnsweredAtM ?? SilentAtM) is not null;
}
