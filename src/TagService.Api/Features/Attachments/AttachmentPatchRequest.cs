using System.ComponentModel.DataAnnotations;

namespace TagService.Api.Features.Attachments;

/// <summary>
/// A merge patch (RFC 7396) of an attachment: members that are sent replace, null clears, absent ones stay. An exact time replaces
/// the bounds of that time and the other way round; null as endReason takes the end back. The tag itself does not change: take the
/// entry back with the reason never-happened and record the right one.
/// </summary>
public sealed record AttachmentPatchRequest : AttachmentFields
{
    /// <summary>The asset, an id of /v1/assets.</summary>
    [MinLength(1), MaxLength(200), RegularExpression(Plain)]
    public string? AssetId { get; init; }
}
