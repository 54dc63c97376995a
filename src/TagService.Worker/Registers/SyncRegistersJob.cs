using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Polly;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Storage.Registers;
using TagService.Storage.Tables;

namespace TagService.Worker.Registers;

/// <summary>
/// Keeps the mirror in step with the registers: asks for the runs that are due, takes them one after another and writes what they read.
/// Killed at any point it loses at most the rows in hand, which the next worker reads again.
/// </summary>
internal sealed class SyncRegistersJob(
    RegisterSyncs syncs, RegisterSyncWriter writer, RegisterReaders readers, WorkerOptions options, TimeProvider clock, ILogger<SyncRegistersJob> logger)
    : BackgroundService
{
    private readonly ResiliencePipeline _retry = TransientRetry.Create(clock, logger);

    /// <summary>All runs that are due now.</summary>
    /// <returns>How many were taken.</returns>
    public async Task<int> RunOnceAsync(CancellationToken stop)
    {
        await syncs.RequestDueAsync(stop);
        var taken = 0;
        while (await syncs.ClaimAsync(static settings => TimeSpan.FromHours(RegisterSourceJson.Read(settings).FullPassEveryHours), stop) is { } claim)
        {
            taken++;
            await RunAsync(claim, stop);
        }

        return taken;
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
            logger.LogError(e, "Looking for register runs failed; next look in {Seconds} s", options.Poll.TotalSeconds);
        }
    }

    private async Task RunAsync(RegisterSyncClaim claim, CancellationToken stop)
    {
        var started = clock.GetTimestamp();
        using var lost = CancellationTokenSource.CreateLinkedTokenSource(stop);
        var keeping = KeepAsync(claim, lost);
        try
        {
            var end = await ReadAsync(claim, lost.Token);
            LogEnd(claim, end, clock.GetElapsedTime(started));
        }
        catch (RegisterReadException e)
        {
            await SourceFailedAsync(claim, e, stop);
        }
        catch (RegisterSettingsException e)
        {
            await syncs.FailAsync(claim, new("settings-unusable", e.Message), stop);
            logger.LogError("Register {Source}, run {Run}: {Reason}", claim.SourceName, claim.Id, e.Message);
        }
        catch (Exception e) when (e is RegisterSyncLostException || (e is OperationCanceledException && lost.IsCancellationRequested && !stop.IsCancellationRequested))
        {
            logger.LogWarning("Register {Source}, run {Run} was cancelled or taken over by another worker", claim.SourceName, claim.Id);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // So that another worker need not wait until we count as dead.
            await syncs.GiveBackAsync(claim, null, null, CancellationToken.None);
            throw;
        }
        catch (Exception e)
        {
            logger.LogError(e, "Register {Source}, run {Run} failed on our side", claim.SourceName, claim.Id);
            await AgainAsync(claim, new("internal-failure", "The service failed while it wrote what it read; its log says more."), null, stop);
        }
        finally
        {
            await lost.CancelAsync();
            await keeping;
        }
    }

    private async Task<RegisterSyncEnd> ReadAsync(RegisterSyncClaim claim, CancellationToken stop)
    {
        var (source, mapper, reader) = RegisterSettingsException.Open(claim, readers);
        var isComplete = claim.Notes.IsCompleteList;
        if (isComplete is null)
        {
            var run = new RegisterSyncRun(claim, mapper, new RowHash(RegisterSourceJson.HashOf(source)), writer, clock);
            await foreach (var group in PageGroup.ReadAsync(reader, claim.Position is { } p ? new RegisterPosition(p) : null, stop))
                await _retry.ExecuteAsync(static async (s, token) => await s.Run.WriteAsync(s.Group, token), (Run: run, Group: group), stop);
            isComplete = run.Notes.IsCompleteList;
        }

        return await _retry.ExecuteAsync(
            async token => await writer.FinishAsync(claim, isComplete == true, source.WhenMissing, source.MostMissingShare, token), stop);
    }

    private void LogEnd(RegisterSyncClaim claim, RegisterSyncEnd end, TimeSpan elapsed)
    {
        logger.LogInformation(
            "Register {Source}, run {Run}: {Rows} rows read in {Seconds:0.0} s, {Created} assets new, {Changed} changed, {Retired} retired, {Refused} rows refused",
            claim.SourceName, claim.Id, end.Rows, elapsed.TotalSeconds, end.Created, end.Changed, end.Retired, end.Refused);
        if (end.State == RegisterSyncState.Held)
            logger.LogWarning(
                "Register {Source}, run {Run} is held: {Missing} of the {Listed} assets it listed are missing and none was retired; somebody has to say whether they are gone",
                claim.SourceName, claim.Id, end.Missing, end.Listed);
    }

    // A slow page takes longer than a worker may be silent.
    private async Task KeepAsync(RegisterSyncClaim claim, CancellationTokenSource lost)
    {
        try
        {
            while (true)
            {
                await Task.Delay(syncs.Lease / 3, clock, lost.Token);
                if (!await _retry.ExecuteAsync(async token => await syncs.KeepAsync(claim, token), lost.Token))
                    await lost.CancelAsync();
            }
        }
        catch (OperationCanceledException) when (lost.IsCancellationRequested)
        {
            // The run is over.
        }
        catch (Exception e)
        {
            logger.LogWarning(e, "Register {Source}, run {Run} could not be kept; it ends with the next page if another worker has it", claim.SourceName, claim.Id);
        }
    }

    private async Task SourceFailedAsync(RegisterSyncClaim claim, RegisterReadException e, CancellationToken stop)
    {
        var reason = new SourceNote(SourceFaults.CodeOf(e.Fault), e.Message);
        logger.LogWarning("Register {Source}, run {Run} cannot be read on ({Fault}): {Reason}", claim.SourceName, claim.Id, reason.Code, e.Message);
        if (SourceFaults.MayPass(e.Fault))
            await AgainAsync(claim, reason, e.RetryAt, stop);
        else
            await syncs.FailAsync(claim, reason, stop);
    }

    private Task AgainAsync(RegisterSyncClaim claim, SourceNote reason, DateTimeOffset? retryAt, CancellationToken stop) =>
        SourceFaults.PauseAfter(claim.Attempts) is { } pause
            ? syncs.GiveBackAsync(claim, reason, retryAt ?? clock.GetUtcNow() + pause, stop)
            : syncs.FailAsync(claim, reason, stop);
}
