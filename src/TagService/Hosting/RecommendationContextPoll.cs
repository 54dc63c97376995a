using TagService.Storage.Recommendations;

namespace TagService.Hosting;

/// <summary>
/// Looks every two seconds whether another process has changed tag classes or measured ranges. The first look is made before
/// the service answers, so that a restart does not forget them for a moment; a database that is away holds nothing up for long.
/// </summary>
internal sealed class RecommendationContextPoll(RecommendationContextSource contexts, TimeProvider clock) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan FirstLook = TimeSpan.FromSeconds(5);

    public override async Task StartAsync(CancellationToken cancellationToken)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        limit.CancelAfter(FirstLook);
        try
        {
            await contexts.TryRefreshAsync(limit.Token);
        }
        catch (OperationCanceledException) when (!cancellationToken.IsCancellationRequested)
        {
            // Not in time: the loop goes on trying.
        }

        await base.StartAsync(cancellationToken);
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, clock);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
                await contexts.TryRefreshAsync(stoppingToken);
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // A host that fails to start stops this without calling it a stop, and would report it as a failure.
        }
    }
}
