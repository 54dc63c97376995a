namespace TagService.Domain.Attachments;

/// <summary>That a new attachment ends an earlier one: of the same tag, or of another tag on the same asset.</summary>
/// <param name="AttachmentId">Which one; null: the open one of the tag, else the only open one of the asset.</param>
/// <param name="At">When; where nothing is known, it follows from the word previous that it was not after the latest start of the new one.</param>
/// <param name="ReasonId">Why, an id in <see cref="EndReasons"/>.</param>
public sealed record PreviousEnd(Guid? AttachmentId, Moment At, string ReasonId);
