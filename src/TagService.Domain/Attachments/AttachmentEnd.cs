namespace TagService.Domain.Attachments;

/// <summary>That and why an attachment has ended. The time may be unknown; the reason may be "not known", but never absent.</summary>
/// <param name="At">When.</param>
/// <param name="ReasonId">Id in <see cref="EndReasons"/>.</param>
public sealed record AttachmentEnd(Moment At, string ReasonId)
{
    /// <summary>What it says about the tag's life. A reason only a newer program knows says nothing of it.</summary>
    public EndKind Kind => EndReasons.Table.Find(ReasonId)?.Kind ?? EndKind.Unknown;

    /// <summary>Did the tag still answer when it was taken off?</summary>
    public bool AnsweredAtEnd => EndReasons.Table.Find(ReasonId)?.AnsweredAtEnd ?? false;
}
