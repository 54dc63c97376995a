using System.Globalization;

namespace TagService.Domain.Attachments;

/// <summary>
/// When something happened, as far as anybody knows: exactly, not before, not after, between two times, or not at all. Times are
/// UTC and whole microseconds, which is what the database keeps. No bound is ever made up; what follows from others is derived where it is used.
/// </summary>
public readonly record struct Moment
{
    private Moment(DateTimeOffset? notBefore, DateTimeOffset? notAfter)
    {
        NotBefore = notBefore;
        NotAfter = notAfter;
    }

    /// <summary>Nothing is known.</summary>
    public static Moment Unknown => default;

    /// <summary>Earliest possible time; null: not known.</summary>
    public DateTimeOffset? NotBefore { get; }

    /// <summary>Latest possible time; null: not known.</summary>
    public DateTimeOffset? NotAfter { get; }

    /// <summary>Is nothing known?</summary>
    public bool IsUnknown => NotBefore is null && NotAfter is null;

    /// <summary>The time where it is known exactly.</summary>
    public DateTimeOffset? Exact => NotBefore == NotAfter ? NotBefore : null;

    /// <summary>No time fits both bounds: a mistake of whoever entered them.</summary>
    public bool IsImpossible => NotBefore > NotAfter;

    /// <summary>Known exactly.</summary>
    /// <param name="time">The time.</param>
    public static Moment At(DateTimeOffset time) => Between(time, time);

    /// <summary>Known between two times, either of which may be unknown.</summary>
    /// <param name="notBefore">Earliest possible time.</param>
    /// <param name="notAfter">Latest possible time.</param>
    public static Moment Between(DateTimeOffset? notBefore, DateTimeOffset? notAfter) => new(Kept(notBefore), Kept(notAfter));

    /// <summary>For sentences: "2026-05-01T08:00:00Z", "between ... and ...", "at an unknown time".</summary>
    public override string ToString() => (NotBefore, NotAfter) switch
    {
        (null, null) => "at an unknown time",
        ({ } from, null) => $"not before {Text(from)}",
        (null, { } to) => $"not after {Text(to)}",
        ({ } from, { } to) when from == to => Text(from),
        ({ } from, { } to) => $"between {Text(from)} and {Text(to)}",
    };

    /// <summary>A time as RFC 3339 writes it.</summary>
    internal static string Text(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFFFF'Z'", CultureInfo.InvariantCulture);

    private static DateTimeOffset? Kept(DateTimeOffset? time) =>
        time is { } t ? new(t.UtcTicks - (t.UtcTicks % TimeSpan.TicksPerMicrosecond), TimeSpan.Zero) : null;
}
