using TagService.Api.Features.Fitting;
using TagService.Domain.Attachments;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>One tag on one asset from a moment until its end. What is absent is not known.</summary>
public sealed record AttachmentResponse
{
    /// <summary>Its id.</summary>
    public required Guid Id { get; init; }

    /// <summary>The asset, an id of /v1/assets.</summary>
    public required string AssetId { get; init; }

    /// <summary>The tag's decoded identity in its canonical form.</summary>
    public required string Identity { get; init; }

    /// <summary>The tag's EPC field in hexadecimal as first seen.</summary>
    public string? EpcHex { get; init; }

    /// <summary>TID at fitting, hexadecimal.</summary>
    public string? TidHex { get; init; }

    /// <summary>Id in /v1/tag-classes.</summary>
    public string? TagClassId { get; init; }

    /// <summary>Id in /v1/attachment-methods.</summary>
    public string? AttachmentMethod { get; init; }

    /// <summary>When it was fitted, where that is known exactly.</summary>
    public DateTimeOffset? StartAt { get; init; }

    /// <summary>Earliest start, where only bounds are known.</summary>
    public DateTimeOffset? StartNotBefore { get; init; }

    /// <summary>Latest start, where only bounds are known.</summary>
    public DateTimeOffset? StartNotAfter { get; init; }

    /// <summary>When it ended, where that is known exactly.</summary>
    public DateTimeOffset? EndAt { get; init; }

    /// <summary>Earliest end, where only bounds are known.</summary>
    public DateTimeOffset? EndNotBefore { get; init; }

    /// <summary>Latest end, where only bounds are known.</summary>
    public DateTimeOffset? EndNotAfter { get; init; }

    /// <summary>Id in /v1/attachment-end-reasons; absent while nobody knows of an end.</summary>
    public string? EndReason { get; init; }

    /// <summary>What that reason says about the tag's life.</summary>
    public EndKind? EndKind { get; init; }

    /// <summary>Found in place when recorded.</summary>
    public required bool TakenOver { get; init; }

    /// <summary>When it was recorded.</summary>
    public required DateTimeOffset RecordedAt { get; init; }

    /// <summary>Labour of fitting in minutes.</summary>
    public double? LabourMinutes { get; init; }

    /// <summary>Batch the tag came from.</summary>
    public string? TagBatchId { get; init; }

    /// <summary>Who fitted it; only with include=fitter.</summary>
    public string? FitterId { get; init; }

    /// <summary>Range in m measured at fitting.</summary>
    public double? MeasuredRangeM { get; init; }

    /// <summary>Distance in m at which it answered at fitting.</summary>
    public double? AnsweredAtM { get; init; }

    /// <summary>Distance in m at which it was silent at fitting.</summary>
    public double? SilentAtM { get; init; }

    /// <summary>Power of that check in dBm EIRP.</summary>
    public double? CheckEirpDbm { get; init; }

    /// <summary>Radio region of that check.</summary>
    public string? CheckRegion { get; init; }

    /// <summary>Kind of reader of that check.</summary>
    public ReaderKind? CheckReaderKind { get; init; }

    /// <summary>Kind of place of that check.</summary>
    public string? CheckSite { get; init; }

    /// <summary>Address or key of a photograph.</summary>
    public string? PhotoReference { get; init; }

    /// <summary>Remark.</summary>
    public string? Note { get; init; }

    /// <summary>Entity tag of this state: send it in If-Match with a change.</summary>
    public required string ETag { get; init; }
}

/// <summary>A new attachment.</summary>
/// <param name="Attachment">It.</param>
/// <param name="Previous">The attachment it ended.</param>
/// <param name="AlsoOnAsset">Other tags that are on the asset now. Several are allowed; one that was replaced is ended with endPrevious or PATCH.</param>
/// <param name="CheckRange">What the check is worth; absent without one.</param>
public sealed record StartAttachmentResponse(
    AttachmentResponse Attachment, AttachmentResponse? Previous, IReadOnlyList<AttachedTagResponse> AlsoOnAsset, CheckRangeResponse? CheckRange);

/// <summary>A changed attachment.</summary>
/// <param name="Attachment">As it is now.</param>
/// <param name="Changed">What changed; empty when the attachment was so already.</param>
/// <param name="CheckRange">What the check is worth; absent when nothing was sent that it depends on.</param>
public sealed record ChangedAttachmentResponse(AttachmentResponse Attachment, IReadOnlyList<FieldChangeResponse> Changed, CheckRangeResponse? CheckRange);

/// <summary>One member that changed.</summary>
/// <param name="Field">Its name.</param>
/// <param name="Before">Its value before, as text; absent when there was none.</param>
/// <param name="After">Its value now, as text; absent when there is none.</param>
public sealed record FieldChangeResponse(string Field, string? Before, string? After);

/// <summary>One page of attachments in the order of their recording. The Link header (RFC 8288) has the address of the next page.</summary>
/// <param name="Items">The attachments; entries recorded by mistake have endKind recording-mistake.</param>
/// <param name="NextAfter">The value of after for the next page; absent on the last one.</param>
public sealed record AttachmentPageResponse(IReadOnlyList<AttachmentResponse> Items, Guid? NextAfter);
