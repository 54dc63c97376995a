using System.Collections.Immutable;

namespace TagService.Domain.Attachments;

/// <summary>All attachments of one tag, those recorded by mistake among them. A value: each change gives a new history or a refusal.</summary>
public sealed class AttachmentHistory
{
    private readonly ImmutableDictionary<Guid, Attachment> _byId;

    private AttachmentHistory(string tag, ImmutableDictionary<Guid, Attachment> byId)
    {
        Tag = tag;
        _byId = byId;
    }

    /// <summary>The tag.</summary>
    public string Tag { get; }

    /// <summary>The attachment nobody knows an end of. There is at most one.</summary>
    public Attachment? Open => _byId.Values.FirstOrDefault(a => a.IsOpen);

    /// <summary>All attachments in the order of their recording.</summary>
    public IEnumerable<Attachment> All => _byId.Values.OrderBy(a => a.Id);

    /// <summary>A history of what is recorded.</summary>
    /// <param name="tag">The tag.</param>
    /// <param name="recorded">Its attachments.</param>
    /// <exception cref="ArgumentException">One belongs to another tag.</exception>
    public static AttachmentHistory Of(string tag, params IEnumerable<Attachment> recorded)
    {
        var byId = recorded.ToImmutableDictionary(a => a.Id);
        return byId.Values.FirstOrDefault(a => a.Tag != tag) is { } stranger
            ? throw new ArgumentException($"The attachment {stranger.Id} is of the tag {stranger.Tag}, not of {tag}.", nameof(recorded))
            : new(tag, byId);
    }

    /// <summary>The attachment with this id, or null.</summary>
    /// <param name="id">Its id.</param>
    public Attachment? Find(Guid id) => _byId.GetValueOrDefault(id);

    /// <summary>Records an attachment, now or belatedly.</summary>
    /// <param name="attachment">A new one of this tag.</param>
    /// <param name="now">The time of recording.</param>
    /// <exception cref="ArgumentException">Of another tag, or its id is recorded already.</exception>
    public HistoryChange Start(Attachment attachment, DateTimeOffset now)
    {
        if (_byId.ContainsKey(attachment.Id))
            throw new ArgumentException($"The attachment {attachment.Id} is recorded already.", nameof(attachment));
        return attachment.End is { Kind: EndKind.RecordingMistake } end
            ? new HistoryChange.Refused(new AttachmentRefusal.Contradictory(
                "endReason", end.ReasonId, "A new entry cannot say of itself that it never happened.", "a reason of another kind, or none"))
            : With(attachment, now);
    }

    /// <summary>Records that an attachment has ended.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="end">When and why.</param>
    /// <param name="now">The time of recording.</param>
    /// <exception cref="KeyNotFoundException">No attachment of this tag has the id.</exception>
    public HistoryChange End(Guid id, AttachmentEnd end, DateTimeOffset now)
    {
        var attachment = _byId[id];
        return attachment.End is { } known
            ? new HistoryChange.Refused(new AttachmentRefusal.RecordedOtherwise(
                "endReason", end.ReasonId, $"It has ended already: {known.ReasonId}, {known.At}.", $"a correction of the attachment {id}", attachment))
            : With(attachment with { End = end }, now);
    }

    /// <summary>Replaces what is recorded of an attachment by what is right: dates, asset, end, anything but the tag.</summary>
    /// <param name="attachment">The attachment as it should have been recorded.</param>
    /// <param name="now">The time of correction.</param>
    /// <exception cref="KeyNotFoundException">No attachment of this tag has the id.</exception>
    public HistoryChange Correct(Attachment attachment, DateTimeOffset now)
    {
        var before = _byId[attachment.Id];
        return attachment == before ? new HistoryChange.Changed(this, before) : With(attachment, now);
    }

    private HistoryChange With(Attachment attachment, DateTimeOffset now)
    {
        if (attachment.Tag != Tag)
            throw new ArgumentException($"The attachment {attachment.Id} is of the tag {attachment.Tag}, not of {Tag}.", nameof(attachment));
        if (AttachmentCheck.Refusal(attachment, now) is { } refusal)
            return new HistoryChange.Refused(refusal);
        return attachment.IsVoid || InTheWayOf(attachment) is not { } other
            ? new HistoryChange.Changed(new(Tag, _byId.SetItem(attachment.Id, attachment)), attachment)
            : new HistoryChange.Refused(InTheWay(attachment, other));
    }

    private Attachment? InTheWayOf(Attachment attachment)
    {
        var span = AttachmentSpan.Of(attachment);
        return _byId.Values
            .Where(a => a.Id != attachment.Id && !a.IsVoid && AttachmentSpan.Of(a).Excludes(span))
            // The open one is what people can end; else the latest.
            .OrderByDescending(a => a.IsOpen).ThenByDescending(a => a.Id).FirstOrDefault();
    }

    private static AttachmentRefusal.InTheWay InTheWay(Attachment attachment, Attachment other)
    {
        var until = other.End is { } end ? $", ended {end.At}" : "";
        // The same pair without a time of its own: most likely the same thing sent twice.
        if (attachment.Start.IsUnknown && other.IsOpen && other.AssetId == attachment.AssetId)
        {
            return new(
                "identity", attachment.Tag, $"This tag is on {other.AssetId} already (start {other.Start}; attachment {other.Id}).",
                $"nothing more if that is what was meant; else a correction of the attachment {other.Id}, or another tag", other);
        }

        var field = attachment.Start.Exact is not null ? "startAt" : attachment.Start.NotBefore is not null ? "startNotBefore"
            : attachment.Start.NotAfter is not null ? "startNotAfter" : "identity";
        return new(
            field, attachment.Start.IsUnknown ? attachment.Tag : attachment.Start.ToString(),
            $"A tag is on one asset at a time, and this one is on {other.AssetId} (start {other.Start}{until}; attachment {other.Id}).",
            other.IsOpen
                ? $"end the attachment {other.Id} first, or in the same request with endPrevious; or a time before it"
                : $"a time outside of it, or a correction of the attachment {other.Id}",
            other);
    }
}
