using System.Globalization;

namespace TagService.Domain.Attachments;

/// <summary>Whether the values of one entry can hold together, whatever else is recorded.</summary>
public static class AttachmentCheck
{
    /// <summary>Times before this one are mistakes: no tag of the kinds handled here is as old.</summary>
    public static DateTimeOffset Earliest { get; } = new(1970, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>How far clocks of telephones and readers may be ahead: a day, which also forgives a wrong time zone.</summary>
    public static TimeSpan Ahead { get; } = TimeSpan.FromDays(1);

    /// <summary>The first thing that cannot hold; null when all can.</summary>
    /// <param name="attachment">The entry.</param>
    /// <param name="now">The time of the check.</param>
    public static AttachmentRefusal? Refusal(Attachment attachment, DateTimeOffset now) =>
        OfMoment("start", attachment.Start, now) ?? OfEnd(attachment, now) ?? OfCheck(attachment.Check);

    /// <summary>Why this id is no reason for an end; null when it is one.</summary>
    /// <param name="field">Name of the field that has it.</param>
    /// <param name="reasonId">The id.</param>
    public static AttachmentRefusal? OfReason(string field, string reasonId) => EndReasons.Table.Find(reasonId) is not null
        ? null
        : new AttachmentRefusal.UnknownName(field, reasonId, "Not a known reason for an end.", string.Join(", ", EndReasons.All.Select(r => r.Id)));

    /// <summary>Why no time fits these bounds, or none that can have been; null when one does.</summary>
    /// <param name="name">First word of the fields' names, for example <c>start</c>.</param>
    /// <param name="moment">The bounds.</param>
    /// <param name="now">The time of the check.</param>
    public static AttachmentRefusal? OfMoment(string name, Moment moment, DateTimeOffset now)
    {
        var (from, to) = (moment.NotBefore, moment.NotAfter);
        if (from < Earliest || to < Earliest)
            return Contradictory(Field(name, moment), (from < Earliest ? from : to)!.Value, "The time is long before such tags existed.", $"a time from {Moment.Text(Earliest)} on");
        if (from > now + Ahead)
            return Contradictory(Field(name, moment), from.Value, "The time is in the future.", "what has happened, up to now");
        // An exact time has equal bounds and was looked at above; "not later than next year" says no more than "not later than now".
        return moment.IsImpossible
            ? Contradictory($"{name}NotAfter", to!.Value, $"{name}NotAfter is before {name}NotBefore ({Moment.Text(from!.Value)}).", $"a time not before {Moment.Text(from.Value)}")
            : null;
    }

    private static AttachmentRefusal? OfEnd(Attachment attachment, DateTimeOffset now)
    {
        if (attachment.End is not { } end)
            return null;
        if (OfReason("endReason", end.ReasonId) is { } unknown)
            return unknown;
        if (OfMoment("end", end.At, now) is { } impossible)
            return impossible;
        return attachment.Start.NotBefore is { } start && end.At.NotAfter is { } last && last < start
            ? Contradictory(Field("end", end.At), last, $"It would have ended before it began (not before {Moment.Text(start)}).", $"a time not before {Moment.Text(start)}")
            : null;
    }

    private static AttachmentRefusal.Contradictory? OfCheck(FittingCheck check)
    {
        if (check.AnsweredAtM > (check.MeasuredRangeM ?? check.SilentAtM))
            return Distance("answeredAtM", check.AnsweredAtM.Value, "It answered farther away than it answers.", "a distance up to measuredRangeM, and not beyond silentAtM");
        if (check.SilentAtM < (check.MeasuredRangeM ?? check.AnsweredAtM))
            return Distance("silentAtM", check.SilentAtM.Value, "It was silent nearer than it answers.", "a distance not below measuredRangeM and answeredAtM");
        // Region, reader and place come with the fitting instruction, whether or not the check is made; a power is set for a check only.
        return check is { HasDistance: false, EirpDbm: not null }
            ? new("answeredAtM", null, "The power of a check is given, but no distance.", "one of answeredAtM, measuredRangeM, silentAtM")
            : null;
    }

    private static string Field(string name, Moment moment) =>
        moment.Exact is not null ? $"{name}At" : moment.NotAfter is null ? $"{name}NotBefore" : $"{name}NotAfter";

    private static AttachmentRefusal.Contradictory Contradictory(string field, DateTimeOffset value, string detail, string accepted) =>
        new(field, Moment.Text(value), detail, accepted);

    private static AttachmentRefusal.Contradictory Distance(string field, double value, string detail, string accepted) =>
        new(field, value.ToString("R", CultureInfo.InvariantCulture), detail, accepted);
}
