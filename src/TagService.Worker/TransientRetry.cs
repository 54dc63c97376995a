using Microsoft.Extensions.Logging;
using Npgsql;
using Polly;
using Polly.Retry;

namespace TagService.Worker;

/// <summary>
/// Retry around a whole transaction of a job: EF Core's own retry does not see raw Npgsql commands. Only failures that Npgsql
/// calls transient (lost connection, serialisation failure, deadlock, server starting or out of resources).
/// </summary>
internal static class TransientRetry
{
    private const int Attempts = 4;
    private static readonly TimeSpan FirstDelay = TimeSpan.FromMilliseconds(250);
    private static readonly TimeSpan LongestDelay = TimeSpan.FromSeconds(5);

    public static ResiliencePipeline Create(TimeProvider clock, ILogger logger) =>
        new ResiliencePipelineBuilder { TimeProvider = clock }
            .AddRetry(new RetryStrategyOptions
            {
                ShouldHandle = new PredicateBuilder().Handle<NpgsqlException>(e => e.IsTransient),
                MaxRetryAttempts = Attempts,
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                Delay = FirstDelay,
                MaxDelay = LongestDelay,
                OnRetry = retry =>
                {
                    logger.LogWarning(
                        "The database failed for a moment ({Reason}); attempt {Attempt} of {Attempts} follows",
                        retry.Outcome.Exception!.Message, retry.AttemptNumber + 1, Attempts);
                    return default;
                },
            })
            .Build();
}
