using TagService.Domain.Units;

namespace TagService.Domain.Attachments;

/// <summary>What one attachment says about the life of its tag.</summary>
public abstract record LifetimeBounds
{
    private LifetimeBounds()
    {
    }

    /// <summary>How an observed life ended.</summary>
    public enum Outcome
    {
        /// <summary>It failed, at an age in (left, right].</summary>
        Failed,

        /// <summary>It was ended for another reason at an age of at least left: censored there.</summary>
        Removed,

        /// <summary>Nothing says that it has failed or not after left: censored there, or weighted by the probability of failure.</summary>
        Unsettled,
    }

    /// <summary>
    /// An observation with late entry and interval censoring, as <c>POST /v1/calculations/survival</c> takes it. Ages are in years
    /// of 365.25 days.
    /// </summary>
    /// <param name="Entry">Age it had reached at least when observation began; 0 when observed from its start.</param>
    /// <param name="Left">Age at least reached when it was last known to answer; not below entry.</param>
    /// <param name="Right">Age at most reached when it was first known to have failed; null unless it has failed.</param>
    /// <param name="Ending">How it ended.</param>
    /// <param name="StartUncertainty">How far apart the bounds of the start are; all three ages are uncertain by as much.</param>
    public sealed record Observed(Years Entry, Years Left, Years? Right, Outcome Ending, Years StartUncertainty) : LifetimeBounds;

    /// <summary>It says nothing that can be used.</summary>
    /// <param name="Reason">Why, in words.</param>
    public sealed record NotUsable(string Reason) : LifetimeBounds;

    /// <summary>
    /// Bounds of an attachment's life, all on the safe side of what is known: with the start in [s1, s2], the last answer at a and
    /// the first known failure at f, left = a - s2, right = f - s1, entry = (time of recording) - s2 for pairs taken over
    /// (design: entry to observation, last known answering, first known failed; late entry and (L, R] after Turnbull 1976, from memory).
    /// </summary>
    /// <param name="attachment">The attachment.</param>
    /// <param name="lastAnsweredAt">Latest time at which its tag was known to answer; null: no read is known.</param>
    /// <param name="firstFailedAt">Earliest time at which it was known to have failed; null: not before its recorded end.</param>
    public static LifetimeBounds Of(Attachment attachment, DateTimeOffset? lastAnsweredAt, DateTimeOffset? firstFailedAt)
    {
        if (attachment.IsVoid)
            return new NotUsable("recorded by mistake");
        if (attachment.Start is not { NotBefore: { } earliest, NotAfter: { } latest })
            return new NotUsable("its age is not known: the start has no earliest or no latest time");
        var kind = attachment.End?.Kind;
        // A removal of a working tag is a sign of life at its end; other ends say nothing of the time before them.
        var answered = Later(lastAnsweredAt, attachment.End is { AnsweredAtEnd: true } end ? end.At.NotBefore : null);
        var entry = attachment.TakenOver ? Age(latest, attachment.RecordedAt) : 0;
        var left = Math.Max(entry, answered is { } sign ? Age(latest, sign) : 0);
        var uncertainty = new Years(Age(earliest, latest));
        if (kind != EndKind.Failure)
            return new Observed(new(entry), new(left), null, kind == EndKind.Removal ? Outcome.Removed : Outcome.Unsettled, uncertainty);
        if (Earlier(firstFailedAt, attachment.End!.At.NotAfter) is not { } failed)
            return new NotUsable("it has failed, but the latest time of that is not known");
        if (failed <= answered)
            return new NotUsable($"it answered at {Moment.Text(answered.Value)}, after it is recorded to have failed ({Moment.Text(failed)})");
        var right = Age(earliest, failed);
        return right <= left
            ? new NotUsable("it had failed before it was under observation, or at its very start")
            : new Observed(new(entry), new(left), new(right), Outcome.Failed, uncertainty);
    }

    private static double Age(DateTimeOffset start, DateTimeOffset time) => Math.Max(0, (time - start).TotalDays / 365.25);

    private static DateTimeOffset? Later(DateTimeOffset? a, DateTimeOffset? b) => a is null || b > a ? b : a;

    private static DateTimeOffset? Earlier(DateTimeOffset? a, DateTimeOffset? b) => a is null || b < a ? b : a;
}
