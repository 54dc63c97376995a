using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TagService.Storage.Tables;

namespace TagService.Storage.Registers;

/// <summary>
/// Hands runs over register sources out to workers. A run belongs to its worker for a limited time, which the worker extends while it
/// lives; one that dies leaves the run to the next, which reads on behind the last page that was written.
/// </summary>
public sealed class RegisterSyncs(NpgsqlDataSource dataSource, IServiceScopeFactory scopes, TimeProvider clock)
{
    /// <summary>Runs of a source that are kept, with their refused rows.</summary>
    public const int MostRunsKept = 100;

    /// <summary>How long a run belongs to a worker that is not heard of.</summary>
    public TimeSpan Lease { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Asks for the runs that are due by their schedule.</summary>
    public async Task RequestDueAsync(CancellationToken cancellationToken)
    {
        await using var command = dataSource.CreateCommand(RegisterSyncSql.RequestDue);
        command.Parameters.Add(Of(clock.GetUtcNow()));
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    /// <summary>Takes the run that has waited longest.</summary>
    /// <param name="fullPassAfter">From a source's settings to the time after which everything is read anew.</param>
    /// <param name="cancellationToken">Stops waiting.</param>
    /// <returns>Null when none waits.</returns>
    public async Task<RegisterSyncClaim?> ClaimAsync(Func<string, TimeSpan> fullPassAfter, CancellationToken cancellationToken)
    {
        var worker = Guid.NewGuid();
        long id;
        await using (var command = dataSource.CreateCommand(RegisterSyncSql.Claim))
        {
            var now = clock.GetUtcNow();
            command.Parameters.Add(Of(worker));
            command.Parameters.Add(Of(now + Lease));
            command.Parameters.Add(Of(now));
            if (await command.ExecuteScalarAsync(cancellationToken) is not long taken)
                return null;
            id = taken;
        }

        await using var scope = scopes.CreateAsyncScope();
        var database = scope.ServiceProvider.GetRequiredService<TagServiceDbContext>();
        var run = await database.RegisterSyncs.AsNoTracking().SingleAsync(s => s.Id == id, cancellationToken);
        var source = await database.RegisterSources.AsNoTracking().SingleOrDefaultAsync(s => s.Name == run.SourceName, cancellationToken);
        if (source is null)
        {
            await EndAsync(id, worker, RegisterSyncState.Cancelled, new("source-deleted", $"There is no source {run.SourceName} any more."), cancellationToken);
            return null;
        }

        // Counts, position and seen assets belong to the settings they were made under.
        if (run.SettingsHash != source.SettingsHash)
        {
            await RestartAsync(run, source, worker, fullPassAfter(source.Settings), cancellationToken);
            run = await database.RegisterSyncs.AsNoTracking().SingleAsync(s => s.Id == id, cancellationToken);
        }

        return new()
        {
            Id = id,
            Worker = worker,
            SourceName = run.SourceName,
            Settings = source.Settings,
            Position = run.Position,
            IsFullPass = run.IsFullPass,
            AcceptsMissing = run.AcceptsMissing,
            Rows = run.Rows,
            Refused = run.Refused,
            Attempts = run.Attempts,
            Notes = run.Notes is { } notes ? StoredJson.Read<RegisterSyncNotes>(notes) : RegisterSyncNotes.None,
        };
    }

    /// <summary>Keeps a run for longer.</summary>
    /// <returns>False when it is no longer this worker's.</returns>
    public async Task<bool> KeepAsync(RegisterSyncClaim claim, CancellationToken cancellationToken)
    {
        await using var command = dataSource.CreateCommand(RegisterSyncSql.Hold);
        command.Parameters.Add(Of(claim.Id));
        command.Parameters.Add(Of(claim.Worker));
        command.Parameters.Add(Of(clock.GetUtcNow() + Lease));
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        return await reader.ReadAsync(cancellationToken);
    }

    /// <summary>Gives a run back, to be taken again at once or later.</summary>
    /// <param name="claim">The run.</param>
    /// <param name="reason">Why it waits; null: this worker stops.</param>
    /// <param name="tryAgainAt">Not before; null: at once.</param>
    /// <param name="cancellationToken">Stops waiting.</param>
    public async Task GiveBackAsync(RegisterSyncClaim claim, SourceNote? reason, DateTimeOffset? tryAgainAt, CancellationToken cancellationToken)
    {
        await using var scope = scopes.CreateAsyncScope();
        var failed = reason is null ? 0 : 1;
        await Ours(scope, claim).ExecuteUpdateAsync(
            set => set
                .SetProperty(s => s.State, RegisterSyncState.Waiting)
                .SetProperty(s => s.ClaimedBy, (Guid?)null)
                .SetProperty(s => s.ClaimedUntil, (DateTimeOffset?)null)
                .SetProperty(s => s.TryAgainAt, tryAgainAt)
                .SetProperty(s => s.Attempts, s => s.Attempts + failed)
                .SetProperty(s => s.ReasonCode, reason == null ? null : reason.Code)
                .SetProperty(s => s.ReasonDetail, reason == null ? null : reason.Detail),
            cancellationToken);
    }

    /// <summary>Ends a run that cannot go on.</summary>
    public Task FailAsync(RegisterSyncClaim claim, SourceNote reason, CancellationToken cancellationToken) =>
        EndAsync(claim.Id, claim.Worker, RegisterSyncState.Failed, reason, cancellationToken);

    private static IQueryable<RegisterSyncRow> Ours(AsyncServiceScope scope, RegisterSyncClaim claim) =>
        scope.ServiceProvider.GetRequiredService<TagServiceDbContext>().RegisterSyncs
            .Where(s => s.Id == claim.Id && s.ClaimedBy == claim.Worker && s.State == RegisterSyncState.Running);

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private async Task EndAsync(long id, Guid worker, RegisterSyncState state, SourceNote reason, CancellationToken cancellationToken)
    {
        await using var scope = scopes.CreateAsyncScope();
        var database = scope.ServiceProvider.GetRequiredService<TagServiceDbContext>();
        var now = clock.GetUtcNow();
        await database.RegisterSyncs.Where(s => s.Id == id && s.ClaimedBy == worker && s.State == RegisterSyncState.Running).ExecuteUpdateAsync(
            set => set
                .SetProperty(s => s.State, state)
                .SetProperty(s => s.ClaimedBy, (Guid?)null)
                .SetProperty(s => s.ClaimedUntil, (DateTimeOffset?)null)
                .SetProperty(s => s.EndedAt, now)
                .SetProperty(s => s.ReasonCode, reason.Code)
                .SetProperty(s => s.ReasonDetail, reason.Detail),
            cancellationToken);
        await database.RegisterSyncAssets.Where(a => a.SyncId == id).ExecuteDeleteAsync(cancellationToken);
    }

    private async Task RestartAsync(RegisterSyncRow run, RegisterSourceRow source, Guid worker, TimeSpan fullPassAfter, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await RegisterPageWriter.HoldAsync(connection, run.Id, worker, clock.GetUtcNow() + Lease, cancellationToken);
        string? last;
        DateTimeOffset? lastFull;
        await using (var command = new NpgsqlCommand(RegisterSyncSql.LastPosition, connection))
        {
            command.Parameters.Add(Of(source.Name));
            command.Parameters.Add(Of(source.SettingsHash));
            await using var reader = await command.ExecuteReaderAsync(cancellationToken);
            await reader.ReadAsync(cancellationToken);
            last = reader.IsDBNull(0) ? null : reader.GetString(0);
            lastFull = reader.IsDBNull(1) ? null : reader.GetFieldValue<DateTimeOffset>(1);
        }

        var full = run.IsFullPass || run.AcceptsMissing || last is null || lastFull is null || lastFull + fullPassAfter <= clock.GetUtcNow();
        await using (var batch = new NpgsqlBatch(connection))
        {
            batch.BatchCommands.Add(new("DELETE FROM rejected_rows WHERE sync_id = $1") { Parameters = { Of(run.Id) } });
            batch.BatchCommands.Add(new("DELETE FROM register_sync_assets WHERE sync_id = $1") { Parameters = { Of(run.Id) } });
            batch.BatchCommands.Add(new(RegisterSyncSql.Restart)
            {
                Parameters = { Of(run.Id), Of(source.SettingsHash), new NpgsqlParameter { Value = (object?)(full ? null : last) ?? DBNull.Value, NpgsqlDbType = NpgsqlTypes.NpgsqlDbType.Text }, Of(full) },
            });
            await batch.ExecuteNonQueryAsync(cancellationToken);
        }

        await transaction.CommitAsync(cancellationToken);
    }
}
