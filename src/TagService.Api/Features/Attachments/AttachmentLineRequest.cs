using System.ComponentModel.DataAnnotations;

namespace TagService.Api.Features.Attachments;

/// <summary>One line of a batch. In CSV the names are the header, and an empty cell is an absent member.</summary>
public sealed record AttachmentLineRequest : AttachmentFields
{
    /// <summary>The tag's identity in any form: EPC in hexadecimal, EPC URI, GS1 Digital Link, element string.</summary>
    [MinLength(1), MaxLength(2048)]
    public required string Identity { get; init; }

    /// <summary>The asset, an id of /v1/assets.</summary>
    [MinLength(1), MaxLength(200), RegularExpression(Plain)]
    public required string AssetId { get; init; }

    /// <summary>Ends the earlier attachment of the tag, or of another tag on the asset, for this reason.</summary>
    [MaxLength(60)]
    public string? EndPreviousReason { get; init; }

    /// <summary>When that ended, where it is known exactly.</summary>
    public DateTimeOffset? EndPreviousAt { get; init; }

    /// <summary>That ended then or later.</summary>
    public DateTimeOffset? EndPreviousNotBefore { get; init; }

    /// <summary>That ended then or earlier. Where nothing is said of the time: not after the latest start of the new one.</summary>
    public DateTimeOffset? EndPreviousNotAfter { get; init; }

    /// <summary>Which attachment that is; if absent, the open one of the tag, else the only open one of the asset.</summary>
    public Guid? EndPreviousAttachmentId { get; init; }
}
