namespace TagService.Domain.Attachments;

/// <summary>
/// The histories that some recordings touch, changed one recording at a time. Made from what is stored, asked afterwards what has
/// changed. It must hold the whole history of every tag that is recorded, and of the tags open on assets whose earlier attachment is ended.
/// </summary>
public sealed class AttachmentLedger
{
    private readonly Dictionary<string, AttachmentHistory> _histories = new(StringComparer.Ordinal);
    private readonly Dictionary<Guid, Attachment> _before = [];
    private readonly Dictionary<Guid, Attachment> _changed = [];
    private readonly Dictionary<string, Dictionary<Guid, Attachment>> _openOn = new(StringComparer.Ordinal);

    /// <summary>A ledger of what is stored.</summary>
    /// <param name="stored">Whole histories.</param>
    public AttachmentLedger(params IEnumerable<Attachment> stored)
    {
        foreach (var history in stored.GroupBy(a => a.Tag, StringComparer.Ordinal))
            _histories[history.Key] = AttachmentHistory.Of(history.Key, history);
        foreach (var attachment in _histories.Values.SelectMany(h => h.All))
        {
            _before[attachment.Id] = attachment;
            Index(attachment);
        }
    }

    /// <summary>Attachments that are new or differ from what is stored, in the order of their ids.</summary>
    public IEnumerable<Attachment> Changed => _changed.Values.Where(a => !_before.TryGetValue(a.Id, out var before) || before != a).OrderBy(a => a.Id);

    /// <summary>The attachment as it was stored; null when it is new.</summary>
    /// <param name="id">Its id.</param>
    public Attachment? Stored(Guid id) => _before.GetValueOrDefault(id);

    /// <summary>The attachment as it is now; null when the ledger does not hold it.</summary>
    /// <param name="id">Its id.</param>
    public Attachment? Find(Guid id) => _changed.GetValueOrDefault(id) ?? _before.GetValueOrDefault(id);

    /// <summary>The history of a tag as it is now.</summary>
    /// <param name="tag">The tag.</param>
    public AttachmentHistory HistoryOf(string tag) => _histories.GetValueOrDefault(tag) ?? AttachmentHistory.Of(tag);

    /// <summary>Attachments nobody knows an end of, on an asset, in the order of their ids.</summary>
    /// <param name="assetId">The asset.</param>
    public IReadOnlyList<Attachment> OpenOn(string assetId) =>
        _openOn.TryGetValue(assetId, out var open) ? [.. open.Values.OrderBy(a => a.Id)] : [];

    /// <summary>Records a new attachment, and the end of the one before it if asked to; both or nothing.</summary>
    /// <param name="attachment">The new one.</param>
    /// <param name="previous">Which one it ends; null: none.</param>
    /// <param name="now">The time of recording.</param>
    public Recording Start(Attachment attachment, PreviousEnd? previous, DateTimeOffset now)
    {
        Attachment? ended = null;
        var history = HistoryOf(attachment.Tag);
        var other = (AttachmentHistory?)null;
        if (previous is not null)
        {
            if (PreviousChoice.Of(this, attachment, previous, out var chosen) is { } none)
                return new Recording.Refused(none);
            var at = previous.At.IsUnknown ? Moment.Between(null, attachment.Start.NotAfter) : previous.At;
            var ending = HistoryOf(chosen!.Tag).End(chosen.Id, new(at, previous.ReasonId), now);
            if (ending is HistoryChange.Refused refused)
                return new Recording.Refused(OfPrevious(refused.Refusal));
            var after = (HistoryChange.Changed)ending;
            ended = after.Attachment;
            (history, other) = ended.Tag == attachment.Tag ? (after.History, null) : (history, after.History);
        }

        var starting = history.Start(attachment, now);
        if (starting is HistoryChange.Refused inTheWay)
            return new Recording.Refused(inTheWay.Refusal);
        var started = (HistoryChange.Changed)starting;
        if (other is not null)
            Keep(other, ended!);
        else if (ended is not null)
            Keep(started.History, ended);
        Keep(started.History, started.Attachment);
        return new Recording.Started(started.Attachment, ended);
    }

    /// <summary>Records the end of an attachment.</summary>
    /// <param name="attachment">The open one.</param>
    /// <param name="end">When and why.</param>
    /// <param name="line">Key of the batch line that says so; null: no line does.</param>
    /// <param name="now">The time of recording.</param>
    public Recording End(Attachment attachment, AttachmentEnd end, Guid? line, DateTimeOffset now)
    {
        switch (HistoryOf(attachment.Tag).End(attachment.Id, end, now))
        {
            case HistoryChange.Changed changed:
                var ended = changed.Attachment with { EndedByLine = line };
                Keep(((HistoryChange.Changed)changed.History.Correct(ended, now)).History, ended);
                return new Recording.Ended(ended);
            case HistoryChange.Refused refused:
                return new Recording.Refused(refused.Refusal);
            default:
                throw new InvalidOperationException("A change of a history is taken or refused.");
        }
    }

    /// <summary>Corrects an attachment.</summary>
    /// <param name="attachment">As it should have been recorded.</param>
    /// <param name="now">The time of correction.</param>
    public Recording Correct(Attachment attachment, DateTimeOffset now)
    {
        var history = HistoryOf(attachment.Tag);
        var before = history.Find(attachment.Id) ?? throw new KeyNotFoundException($"The ledger does not hold the attachment {attachment.Id}.");
        switch (history.Correct(attachment, now))
        {
            case HistoryChange.Changed changed:
                Keep(changed.History, changed.Attachment);
                return before == attachment ? new Recording.Known(before) : new Recording.Corrected(before, attachment);
            case HistoryChange.Refused refused:
                return new Recording.Refused(refused.Refusal);
            default:
                throw new InvalidOperationException("A change of a history is taken or refused.");
        }
    }

    private static AttachmentRefusal OfPrevious(AttachmentRefusal refusal) => refusal with
    {
        Field = refusal.Field switch
        {
            "endReason" => "endPreviousReason",
            "endNotBefore" => "endPreviousNotBefore",
            "endNotAfter" => "endPreviousNotAfter",
            _ => "endPreviousAt",
        },
    };

    private void Keep(AttachmentHistory history, Attachment attachment)
    {
        if (Find(attachment.Id) is { IsOpen: true } before)
            _openOn[before.AssetId].Remove(before.Id);
        _histories[history.Tag] = history;
        _changed[attachment.Id] = attachment;
        Index(attachment);
    }

    private void Index(Attachment attachment)
    {
        if (!attachment.IsOpen)
            return;
        if (!_openOn.TryGetValue(attachment.AssetId, out var open))
            _openOn[attachment.AssetId] = open = [];
        open[attachment.Id] = attachment;
    }
}
