using System.ComponentModel.DataAnnotations;

namespace TagService.Api.Features.Attachments;

/// <summary>A tag on an asset: just fitted, found in place, or past.</summary>
public sealed record StartAttachmentRequest : AttachmentFields
{
    /// <summary>The tag's identity in any form: EPC in hexadecimal, EPC URI, GS1 Digital Link, element string.</summary>
    [MinLength(1), MaxLength(2048)]
    public required string Identity { get; init; }

    /// <summary>Ends the earlier attachment of the tag, or of another tag on the asset, in the same transaction.</summary>
    public EndPreviousRequest? EndPrevious { get; init; }
}

/// <summary>The end of an earlier attachment.</summary>
public sealed record EndPreviousRequest
{
    /// <summary>Why it ended, an id in /v1/attachment-end-reasons.</summary>
    [MaxLength(60)]
    public required string Reason { get; init; }

    /// <summary>When it ended, where that is known exactly.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>It ended then or later.</summary>
    public DateTimeOffset? NotBefore { get; init; }

    /// <summary>It ended then or earlier. Where nothing is said of the time: not after the latest start of the new one.</summary>
    public DateTimeOffset? NotAfter { get; init; }

    /// <summary>Which attachment; if absent, the open one of the tag, else the only open one of the asset.</summary>
    public Guid? AttachmentId { get; init; }
}
