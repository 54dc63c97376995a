using System.ComponentModel.DataAnnotations;
using TagService.Api.Features.TagClasses;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>What can be said of an attachment; every member may be unknown. Times are RFC 3339 with offset, kept to the microsecond.</summary>
public abstract record AttachmentFields
{
    /// <summary>Hexadecimal, whole bytes, 4 to 62 of them.</summary>
    internal const string Hex = "([0-9A-Fa-f]{2}){4,62}";

    /// <summary>Text without control characters.</summary>
    internal const string Plain = "[^\\x00-\\x1F\\x7F]*";

    /// <summary>Id in /v1/tag-classes.</summary>
    [MaxLength(60)]
    public string? TagClassId { get; init; }

    /// <summary>How it is fixed, an id in /v1/attachment-methods.</summary>
    [MaxLength(60)]
    public string? AttachmentMethod { get; init; }

    /// <summary>TID of the tag's chip as the reader reports it, hexadecimal.</summary>
    [RegularExpression(Hex)]
    public string? TidHex { get; init; }

    /// <summary>When it was fitted, where that is known exactly.</summary>
    public DateTimeOffset? StartAt { get; init; }

    /// <summary>It was fitted then or later.</summary>
    public DateTimeOffset? StartNotBefore { get; init; }

    /// <summary>It was fitted then or earlier.</summary>
    public DateTimeOffset? StartNotAfter { get; init; }

    /// <summary>When it ended, where that is known exactly.</summary>
    public DateTimeOffset? EndAt { get; init; }

    /// <summary>It ended then or later.</summary>
    public DateTimeOffset? EndNotBefore { get; init; }

    /// <summary>It ended then or earlier.</summary>
    public DateTimeOffset? EndNotAfter { get; init; }

    /// <summary>Why it ended, an id in /v1/attachment-end-reasons; without one it has not ended. The time of the end may be unknown.</summary>
    [MaxLength(60)]
    public string? EndReason { get; init; }

    /// <summary>True for a pair found in place: its like that failed earlier was never recorded, so its life counts from the recording on.</summary>
    public bool? TakenOver { get; init; }

    /// <summary>Labour of fitting in minutes: fetch, prepare, fix, encode, verify, record.</summary>
    [Range(0, 10_000)]
    public double? LabourMinutes { get; init; }

    /// <summary>Batch the tag came from, an id in /v1/tag-batches.</summary>
    [MinLength(1), MaxLength(100), RegularExpression(Plain)]
    public string? TagBatchId { get; init; }

    /// <summary>Who fitted it: an opaque id of your own, not a name. Shown only with include=fitter.</summary>
    [MinLength(1), MaxLength(100), RegularExpression(Plain)]
    public string? FitterId { get; init; }

    /// <summary>Distance in m up to which it answers in place, measured.</summary>
    [Range(0.005, 200)]
    public double? MeasuredRangeM { get; init; }

    /// <summary>A distance in m at which it answered in place; how much farther was not tried.</summary>
    [Range(0.005, 200)]
    public double? AnsweredAtM { get; init; }

    /// <summary>A distance in m at which it did not answer in place.</summary>
    [Range(0.005, 200)]
    public double? SilentAtM { get; init; }

    /// <summary>Power of that check in dBm EIRP.</summary>
    [Range(-30, 60)]
    public double? CheckEirpDbm { get; init; }

    /// <summary>Radio region of that check: an id of /v1/radio-regions or an ISO 3166 country code.</summary>
    [MaxLength(60)]
    public string? CheckRegion { get; init; }

    /// <summary>Kind of reader of that check.</summary>
    public ReaderKind? CheckReaderKind { get; init; }

    /// <summary>Kind of place of that check, an id of /v1/site-models.</summary>
    [MaxLength(60)]
    public string? CheckSite { get; init; }

    /// <summary>Address or key of a photograph, never the picture itself.</summary>
    [MaxLength(500), RegularExpression(Plain)]
    public string? PhotoReference { get; init; }

    /// <summary>Your own remark.</summary>
    [MaxLength(500), RegularExpression(TagClassRequest.Storable)]
    public string? Note { get; init; }
}
