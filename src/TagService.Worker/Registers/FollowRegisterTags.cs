using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Polly;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Corrections;

namespace TagService.Worker.Registers;

/// <summary>
/// For registers that are believed in their tag column: records what the column says as attachments. Looks at assets that changed since
/// the last look, and once an hour at all, since attachments change too. Killed at any point it loses at most some hundreds of assets,
/// which the next look takes; several workers at once record nothing twice.
/// </summary>
internal sealed class FollowRegisterTags(
    IServiceScopeFactory scopes, RegisterTagFollower follower, WorkerOptions options, TimeProvider clock, ILogger<FollowRegisterTags> logger) : BackgroundService
{
    private static readonly TimeSpan AllEvery = TimeSpan.FromHours(1);

    // Longer than any transaction that writes assets: what it wrote carries the time of its beginning.
    private static readonly TimeSpan Overlap = TimeSpan.FromMinutes(10);

    private readonly ResiliencePipeline _retry = TransientRetry.Create(clock, logger);
    private readonly Dictionary<string, (DateTimeOffset Last, DateTimeOffset LastOfAll)> _looks = new(StringComparer.Ordinal);
    private bool _keysFilled;

    /// <summary>One look at all such registers.</summary>
    public async Task<FollowedTags> RunOnceAsync(CancellationToken stop)
    {
        if (!_keysFilled)
        {
            var filled = await _retry.ExecuteAsync(async token => await follower.FillKeysAsync(token), stop);
            _keysFilled = true;
            if (filled > 0)
                logger.LogInformation("Identities worked out for the register tags of {Assets} assets", filled);
        }

        var followed = FollowedTags.None;
        foreach (var source in await _retry.ExecuteAsync(async token => await SourcesAsync(token), stop))
        {
            var now = clock.GetUtcNow();
            var (last, lastOfAll) = _looks.GetValueOrDefault(source);
            var all = lastOfAll + AllEvery <= now;
            var came = await _retry.ExecuteAsync(async token => await FollowAsync(source, all ? null : last - Overlap, token), stop);
            _looks[source] = (now, all ? now : lastOfAll);
            followed = followed.Plus(came);
            Log(source, came, all);
        }

        return followed;
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
        catch (ObjectDisposedException) when (!stop.IsCancellationRequested)
        {
            // A host that fails to start takes the services away before it stops the jobs; the next tick is not reached.
        }
        catch (Exception e) when (!stop.IsCancellationRequested)
        {
            // Whatever it was, the service goes on and the next look may succeed.
            logger.LogError(e, "Following register tags failed; next look in {Seconds} s", options.Poll.TotalSeconds);
        }
    }

    private Task<FollowedTags> FollowAsync(string source, DateTimeOffset? changedSince, CancellationToken stop)
    {
        ChangeOrigin.Actor = $"register-source:{source}";
        return follower.FollowAsync(source, changedSince, stop);
    }

    private async Task<List<string>> SourcesAsync(CancellationToken stop)
    {
        await using var scope = scopes.CreateAsyncScope();
        var database = scope.ServiceProvider.GetRequiredService<TagServiceDbContext>();
        var sources = await database.RegisterSources.AsNoTracking().OrderBy(s => s.Name).Select(s => new { s.Name, s.Settings }).ToListAsync(stop);
        return [.. sources.Where(s => IsBelieved(s.Name, s.Settings)).Select(s => s.Name)];
    }

    private bool IsBelieved(string name, string settings)
    {
        try
        {
            return RegisterSourceJson.Read(settings).TagAuthority == TagAuthority.Register;
        }
        catch (JsonException e)
        {
            logger.LogWarning("The settings of the register source {Source} cannot be read by this program version: {Reason}", name, e.Message);
            return false;
        }
    }

    private void Log(string source, FollowedTags followed, bool all)
    {
        if (followed.Started + followed.Ended > 0)
            logger.LogInformation("Register {Source}: {Started} attachments recorded as its tag column says, {Ended} ended", source, followed.Started, followed.Ended);
        if (followed.Conflicts + followed.Refused > 0 && (all || followed.Started > 0))
        {
            logger.LogWarning(
                "Register {Source}: {Conflicts} tags that its column names are on other assets, {Refused} more could not be recorded; see /v1/register-corrections", source,
                followed.Conflicts, followed.Refused);
        }
    }
}
