namespace TagService.Api.Http;

/// <summary>Times as the database keeps them.</summary>
internal static class StoredTime
{
    /// <summary>Now, to the microsecond: what is answered now must be what is read later.</summary>
    public static DateTimeOffset Now(TimeProvider clock)
    {
        var now = clock.GetUtcNow();
        return new(now.UtcTicks - (now.UtcTicks % TimeSpan.TicksPerMicrosecond), TimeSpan.Zero);
    }
}
