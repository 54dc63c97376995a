namespace TagService.Domain.Attachments;

/// <summary>
/// The time an attachment takes up, as four bounds: it starts within [S1, S2] and ends within [E1, E2]. It certainly holds in
/// [S2, E1), if that is not empty.
/// <para>
/// A set of attachments of one tag is possible when each can be given a start and an end within its bounds so that no two
/// overlap. That is so exactly when no pair <see cref="Excludes"/> each other. Proof: an attachment with a certain period can be
/// shrunk to it. One without (E1 &lt;= S2) can be shrunk to a single point, and the points open to it are all of
/// [max(S1, E1), min(S2, E2)]. Points never exclude each other; certain periods must be disjoint; and an interval of points that
/// lies in no single certain period has a point outside all of them, because disjoint periods leave the ends between them free.
/// So pairs decide, the order in which attachments are entered does not matter, and every refusal can name the one in the way.
/// Tested against every order and every choice of bounds on a small grid.
/// </para>
/// </summary>
/// <param name="S1">Earliest start.</param>
/// <param name="S2">Latest start.</param>
/// <param name="E1">Earliest end.</param>
/// <param name="E2">Latest end.</param>
public readonly record struct AttachmentSpan(DateTimeOffset S1, DateTimeOffset S2, DateTimeOffset E1, DateTimeOffset E2)
{
    /// <summary>Is there a time at which it certainly holds?</summary>
    public bool HasCertainPeriod => S2 < E1;

    /// <summary>
    /// Bounds of an attachment. One that is open holds now: it started at the latest when it was recorded.
    /// </summary>
    /// <param name="attachment">An attachment that is not void.</param>
    public static AttachmentSpan Of(Attachment attachment)
    {
        var (start, end) = (attachment.Start, attachment.End?.At);
        var earliest = start.NotBefore ?? DateTimeOffset.MinValue;
        return end is { } ended
            ? new(earliest, start.NotAfter ?? DateTimeOffset.MaxValue, ended.NotBefore ?? DateTimeOffset.MinValue, ended.NotAfter ?? DateTimeOffset.MaxValue)
            : new(earliest, start.NotAfter ?? Later(earliest, attachment.RecordedAt), DateTimeOffset.MaxValue, DateTimeOffset.MaxValue);
    }

    /// <summary>Can the two not both have been on one tag?</summary>
    /// <param name="other">Another attachment of the same tag.</param>
    public bool Excludes(AttachmentSpan other) => (HasCertainPeriod, other.HasCertainPeriod) switch
    {
        (true, true) => Later(S2, other.S2) < Earlier(E1, other.E1),
        (true, false) => other.LiesWithin(this),
        (false, true) => LiesWithin(other),
        _ => false,
    };

    // Every point open to it lies strictly inside the other's certain period. An open one has no end that any time could reach.
    private bool LiesWithin(AttachmentSpan certain) =>
        certain.S2 < Later(S1, E1) && (certain.E1 == DateTimeOffset.MaxValue || Earlier(S2, E2) < certain.E1);

    private static DateTimeOffset Later(DateTimeOffset a, DateTimeOffset b) => a > b ? a : b;

    private static DateTimeOffset Earlier(DateTimeOffset a, DateTimeOffset b) => a < b ? a : b;
}
