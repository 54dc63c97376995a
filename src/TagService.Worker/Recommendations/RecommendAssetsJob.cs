using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Polly;
using TagService.Domain.Recommendations;
using TagService.Storage.Claims;
using TagService.Storage.Recommendations;
using TagService.Storage.Tables;

namespace TagService.Worker.Recommendations;

/// <summary>
/// Keeps a recommendation for every asset: looks for assets whose recommendation is missing or stale, answers them batch by
/// batch, each batch one transaction. Killed at any point it loses at most the batch in hand, which the next run takes again.
/// </summary>
internal sealed class RecommendAssetsJob(
    RecommendationClaims claims, RecommendationContextSource contexts, WorkerOptions options, TimeProvider clock,
    ILogger<RecommendAssetsJob> logger) : BackgroundService
{
    private readonly ResiliencePipeline _retry = TransientRetry.Create(clock, logger);

    /// <summary>One pass over all assets.</summary>
    public async Task<RecommendAssetsSummary> RunOnceAsync(CancellationToken stop)
    {
        var started = clock.GetTimestamp();
        var summary = new RecommendAssetsSummary(0, 0, []);
        try
        {
            foreach (var due in await _retry.ExecuteAsync(static async (job, token) => await job.LookAsync(token), this, stop))
            {
                for (var after = ""; ;)
                {
                    var batch = await _retry.ExecuteAsync(
                        static async (state, token) => await state.Job.StoreNextBatchAsync(state.Due, state.After, token), (Job: this, Due: due, After: after), stop);
                    if (batch is not { } done)
                        break;
                    after = done.LastAssetId;
                    summary = summary.Plus(done.Summary);
                }
            }

            return summary;
        }
        finally
        {
            // Also when stopped or failing half way: what is stored is stored.
            Log(summary, clock.GetElapsedTime(started));
        }
    }

    /// <inheritdoc />
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(options.Poll, clock);
        try
        {
            do
                await PassAsync(stoppingToken);
            while (await timer.WaitForNextTickAsync(stoppingToken));
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // A host that fails to start stops this without calling it a stop, and would report it as a failure.
        }
    }

    private async Task PassAsync(CancellationToken stop)
    {
        try
        {
            await RunOnceAsync(stop);
        }
        catch (Exception e) when (!stop.IsCancellationRequested)
        {
            // Whatever it was, the service goes on and the next look may succeed.
            logger.LogError(e, "Recommending tag classes failed; next look in {Seconds} s", options.Poll.TotalSeconds);
        }
    }

    private async Task<IReadOnlyList<DueAssets>> LookAsync(CancellationToken stop)
    {
        await contexts.RefreshAsync(stop);
        var context = contexts.Current;
        return await claims.LookAsync(basis => basis == StoredAnswer.BasisOf(context, basis.MaterialId), stop);
    }

    private async Task<(string LastAssetId, RecommendAssetsSummary Summary)?> StoreNextBatchAsync(DueAssets due, string after, CancellationToken stop)
    {
        // Each batch by the catalogue of the moment, or workers that learnt of a change at different times would undo each other's answers.
        await contexts.RefreshAsync(stop);
        var context = contexts.Current;
        await using var claim = await claims.ClaimAsync(due, after, options.BatchSize, stop);
        if (claim is null)
            return null;
        var rows = new List<AssetRecommendationRow>(claim.Assets.Count);
        var failures = new List<EngineFailure>();
        foreach (var asset in claim.Assets)
        {
            stop.ThrowIfCancellationRequested();
            try
            {
                var answer = RecommendationEngine.Recommend(asset.Record, new(IncludeQuestions: false), context);
                rows.Add(StoredAnswer.Of(asset, answer, context, clock.GetUtcNow()));
            }
            catch (Exception e)
            {
                // A record that the engine trips over must not keep it from all others. Nothing is stored for it: it stays due.
                failures.Add(new(asset.AssetId, e));
            }
        }

        await claim.StoreAsync(rows, stop);
        return (claim.LastAssetId, new(rows.Count, rows.Count(r => r.TagClassId is null), failures));
    }

    private void Log(RecommendAssetsSummary summary, TimeSpan elapsed)
    {
        if (summary.Assets > 0)
            logger.LogInformation(
                "Recommendations stored for {Assets} assets, {WithoutClass} of them without a suitable tag class, in {Seconds:0.0} s",
                summary.Assets, summary.WithoutClass, elapsed.TotalSeconds);
        if (summary.Failures is [var first, ..])
            logger.LogError(
                first.Exception, "The engine failed on {Failed} assets, first on {AssetId}; they are due again at the next look",
                summary.Failures.Count, first.AssetId);
    }
}
