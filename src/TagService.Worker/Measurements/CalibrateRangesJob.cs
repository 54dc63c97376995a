using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Polly;
using TagService.Storage.Measurements;
using TagService.Storage.Recommendations;

namespace TagService.Worker.Measurements;

/// <summary>
/// Computes what checks of attachments teach about ranges. Killed at any point it loses nothing: a mark goes away in the transaction
/// that keeps the posterior.
/// </summary>
internal sealed class CalibrateRangesJob(
    DueCalibrations due, RecommendationContextSource contexts, WorkerOptions options, TimeProvider clock, ILogger<CalibrateRangesJob> logger) : BackgroundService
{
    private readonly ResiliencePipeline _retry = TransientRetry.Create(clock, logger);

    /// <summary>Computes all that is marked.</summary>
    /// <returns>Number of posteriors.</returns>
    public async Task<int> RunOnceAsync(CancellationToken stop)
    {
        // Classes may be new since: a mark of an unknown class waits.
        await contexts.RefreshAsync(stop);
        var count = 0;
        while (await _retry.ExecuteAsync(
            static async (job, token) => await job.due.ComputeNextAsync(job.contexts.Snapshot.Context.Classes, token), (due, contexts), stop) is not null)
        {
            count++;
        }

        if (count > 0)
        {
            await contexts.RefreshAsync(stop);
            logger.LogInformation("Ranges learnt anew for {Pairs} pairs of tag class and material", count);
        }

        return count;
    }

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(options.Poll, clock);
        try
        {
            do
                await LookAsync(stoppingToken);
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // A host that fails to start stops this without calling it a stop, and would report it as a failure.
        }
    }

    private async Task LookAsync(CancellationToken stop)
    {
        try
        {
            await RunOnceAsync(stop);
        }
        catch (Exception e) when (!stop.IsCancellationRequested)
        {
            // Whatever it was, the service goes on and the next look may succeed.
            logger.LogError(e, "Learning from checks failed; next look in {Seconds} s", options.Poll.TotalSeconds);
        }
    }
}
