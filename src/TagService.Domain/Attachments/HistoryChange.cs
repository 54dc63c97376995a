namespace TagService.Domain.Attachments;

/// <summary>What a change of a history came to.</summary>
public abstract record HistoryChange
{
    private HistoryChange()
    {
    }

    /// <summary>Taken.</summary>
    /// <param name="History">The history as it is now.</param>
    /// <param name="Attachment">The attachment as it is now.</param>
    public sealed record Changed(AttachmentHistory History, Attachment Attachment) : HistoryChange;

    /// <summary>Not taken; the history stays as it was.</summary>
    /// <param name="Refusal">Why.</param>
    public sealed record Refused(AttachmentRefusal Refusal) : HistoryChange;
}
