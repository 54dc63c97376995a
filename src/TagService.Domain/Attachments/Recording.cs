namespace TagService.Domain.Attachments;

/// <summary>What became of one thing somebody recorded.</summary>
public abstract record Recording
{
    private Recording()
    {
    }

    /// <summary>A new attachment.</summary>
    /// <param name="Attachment">It.</param>
    /// <param name="Previous">What it ended; null: nothing.</param>
    public sealed record Started(Attachment Attachment, Attachment? Previous) : Recording;

    /// <summary>An attachment that was open has ended.</summary>
    /// <param name="Attachment">As it is now.</param>
    public sealed record Ended(Attachment Attachment) : Recording;

    /// <summary>An attachment was corrected.</summary>
    /// <param name="Before">As it was.</param>
    /// <param name="Attachment">As it is now.</param>
    public sealed record Corrected(Attachment Before, Attachment Attachment) : Recording;

    /// <summary>It was known already.</summary>
    /// <param name="Attachment">Where it is recorded.</param>
    public sealed record Known(Attachment Attachment) : Recording;

    /// <summary>Not taken.</summary>
    /// <param name="Refusal">Why.</param>
    public sealed record Refused(AttachmentRefusal Refusal) : Recording;
}
