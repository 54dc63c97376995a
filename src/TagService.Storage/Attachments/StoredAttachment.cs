using TagService.Domain.Attachments;
using TagService.Storage.Tables;

namespace TagService.Storage.Attachments;

/// <summary>An attachment with its tag and the version of its row.</summary>
/// <param name="Attachment">The attachment.</param>
/// <param name="Tag">The tag.</param>
/// <param name="Version">Changes with every change of the row.</param>
public sealed record StoredAttachment(Attachment Attachment, TagRow Tag, uint Version);
