using System.Net;

namespace TagService.Intake.Registers.Http;

/// <summary>The header <c>Retry-After</c> (RFC 9110, section 10.2.3): seconds or a date.</summary>
internal static class RetryAfter
{
    /// <summary>How long the source asks to wait; null when it does not say.</summary>
    public static TimeSpan? Of(HttpResponseMessage response, DateTimeOffset now)
    {
        if (response.Headers.RetryAfter is not { } header)
            return null;
        // A date counts by the source's clock, where it tells it.
        var wait = header.Delta ?? (header.Date is { } date ? date - (response.Headers.Date ?? now) : TimeSpan.Zero);
        return wait > TimeSpan.Zero ? wait : TimeSpan.Zero;
    }

    public static bool IsThrottling(HttpStatusCode status) =>
        status is HttpStatusCode.TooManyRequests or HttpStatusCode.ServiceUnavailable;
}
