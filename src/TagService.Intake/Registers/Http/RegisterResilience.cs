using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Http.Resilience;
using Microsoft.Extensions.Options;
using Polly;
using Polly.Timeout;

namespace TagService.Intake.Registers.Http;

/// <summary>
/// One pipeline a host, outermost first: at most so many requests at once, a limit on all tries together, retries that honour
/// <c>Retry-After</c>, a circuit that opens when most requests fail, a limit on each try.
/// </summary>
internal static class RegisterResilience
{
    private const int LongestQueue = 1000;

    public static void Configure(ResiliencePipelineBuilder<HttpResponseMessage> builder, ResilienceHandlerContext context)
    {
        var o = context.ServiceProvider.GetRequiredService<IOptions<RegisterOutboundOptions>>().Value;
        var clock = context.ServiceProvider.GetService<TimeProvider>() ?? TimeProvider.System;
        builder.TimeProvider = clock;
        builder.AddConcurrencyLimiter(Math.Max(1, o.Concurrency), LongestQueue);
        builder.AddTimeout(o.TotalTimeout);
        if (o.Retries > 0)
            builder.AddRetry(Retry(o, clock));
        builder.AddCircuitBreaker(new HttpCircuitBreakerStrategyOptions
        {
            FailureRatio = o.CircuitFailureRatio,
            MinimumThroughput = o.CircuitLeastRequests,
            SamplingDuration = o.CircuitWindow,
            BreakDuration = o.CircuitBreak,
            // A source that asks to wait is well: only what fails counts.
            ShouldHandle = args => ValueTask.FromResult(IsFailure(args.Outcome) && args.Outcome.Result?.Headers.RetryAfter is null),
        });
        builder.AddTimeout(o.AttemptTimeout);
    }

    private static HttpRetryStrategyOptions Retry(RegisterOutboundOptions o, TimeProvider clock) => new()
    {
        MaxRetryAttempts = o.Retries,
        Delay = o.RetryDelay,
        BackoffType = DelayBackoffType.Exponential,
        UseJitter = true,
        MaxDelay = o.MostRetryAfter,
        ShouldHandle = args => ValueTask.FromResult(
            IsFailure(args.Outcome) && (Wait(args.Outcome, clock) is not { } wait || wait <= o.MostRetryAfter)),
        DelayGenerator = args => ValueTask.FromResult(Wait(args.Outcome, clock)),
    };

    private static TimeSpan? Wait(Outcome<HttpResponseMessage> outcome, TimeProvider clock) =>
        outcome.Result is { } response ? RetryAfter.Of(response, clock.GetUtcNow()) : null;

    private static bool IsFailure(Outcome<HttpResponseMessage> outcome) => outcome switch
    {
        { Exception: HttpRequestException e } => e.InnerException is not ForbiddenAddressException,
        { Exception: TimeoutRejectedException } => true,
        { Result.StatusCode: HttpStatusCode.RequestTimeout or HttpStatusCode.TooManyRequests } => true,
        { Result: { } response } => (int)response.StatusCode >= 500,
        _ => false,
    };
}
