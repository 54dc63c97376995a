using Npgsql;
using NpgsqlTypes;
using TagService.Domain.Registers;
using TagService.Storage.Bulk;
using TagService.Storage.Tables;

namespace TagService.Storage.Registers;

/// <summary>How a run ended.</summary>
/// <param name="State">Done, or held.</param>
/// <param name="Listed">Assets in service that the source listed before; null when no complete list was read.</param>
/// <param name="Missing">Those of them that it lists no more.</param>
/// <param name="Retired">Those of these that were retired.</param>
public sealed record RegisterSyncEnd(RegisterSyncState State, long? Listed, long? Missing, long Retired)
{
    /// <summary>Rows read.</summary>
    public long Rows { get; init; }

    /// <summary>New assets.</summary>
    public long Created { get; init; }

    /// <summary>Changed assets.</summary>
    public long Changed { get; init; }

    /// <summary>Rows refused.</summary>
    public long Refused { get; init; }
}

/// <summary>Writes what a run reads, page by page, and at its end retires what has gone.</summary>
public sealed class RegisterSyncWriter(NpgsqlDataSource dataSource, AssetBulkWriter assets, RegisterSyncs syncs, TimeProvider clock)
{
    private const string Reason = "no longer listed by the register source ";

    /// <summary>Begins a page.</summary>
    /// <exception cref="RegisterSyncLostException">The run is no longer this worker's.</exception>
    public Task<RegisterPageWriter> BeginPageAsync(RegisterSyncClaim claim, CancellationToken cancellationToken) =>
        RegisterPageWriter.BeginAsync(dataSource, assets, claim, clock.GetUtcNow() + syncs.Lease, cancellationToken);

    /// <summary>
    /// Ends a run whose source was read to its end. If that gave a complete list, what it names no more is taken off the source's list and
    /// retired, some thousands a transaction; more of them than may go at once hold the run instead, and nothing is retired.
    /// </summary>
    /// <param name="claim">The run.</param>
    /// <param name="isCompleteList">An asset that was not met has gone.</param>
    /// <param name="whenMissing">What becomes of those.</param>
    /// <param name="mostMissingShare">Share of the listed assets that may go at once.</param>
    /// <param name="cancellationToken">Gives up; the run is then ended by the next worker.</param>
    /// <exception cref="RegisterSyncLostException">The run is no longer this worker's.</exception>
    public async Task<RegisterSyncEnd> FinishAsync(
        RegisterSyncClaim claim, bool isCompleteList, WhenMissing whenMissing, double mostMissingShare, CancellationToken cancellationToken)
    {
        var end = new RegisterSyncEnd(RegisterSyncState.Done, null, null, 0);
        SourceNote? held = null;
        if (isCompleteList)
        {
            var (listed, missing, all) = await CountMissingAsync(claim, cancellationToken);
            end = end with { Listed = listed, Missing = missing };
            if (missing > MissingAssets.MostAllowed(listed, mostMissingShare) && whenMissing == WhenMissing.Retire && !claim.AcceptsMissing)
            {
                end = end with { State = RegisterSyncState.Held };
                held = new(
                    "too-many-missing",
                    FormattableString.Invariant($"The source listed {listed} assets in service before and now names {missing} of them no more; at most {MissingAssets.MostAllowed(listed, mostMissingShare)} are retired without asking. ")
                    + "Nothing was retired. If they have really gone, ask for a run that accepts it (acceptMissing); else mend the source.");
            }
            else
            {
                await NoteMissingAsync(claim, missing, cancellationToken);
                var last = all > 0 ? "" : null;
                while (last is { } after)
                {
                    (last, var retired) = await UnlistAsync(claim, whenMissing, after, cancellationToken);
                    end = end with { Retired = end.Retired + retired };
                }
            }
        }

        return await EndAsync(claim, end, held, cancellationToken);
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private static NpgsqlParameter Of(object? value, NpgsqlDbType type) => new() { Value = value ?? DBNull.Value, NpgsqlDbType = type };

    private async Task<(long Listed, long Missing, long All)> CountMissingAsync(RegisterSyncClaim claim, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await RunAsync(connection, RegisterSyncSql.InOrder, [], cancellationToken);
        await using var command = new NpgsqlCommand(RegisterSyncSql.CountMissing, connection) { Parameters = { Of(claim.SourceName), Of(claim.Id) }, CommandTimeout = 0 };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        await reader.ReadAsync(cancellationToken);
        return (reader.GetInt64(0), reader.GetInt64(1), reader.GetInt64(2));
    }

    // Before the first of them is taken off: a run that is killed in between counts fewer when it goes on.
    private async Task NoteMissingAsync(RegisterSyncClaim claim, long missing, CancellationToken cancellationToken)
    {
        await using var command = dataSource.CreateCommand("UPDATE register_syncs SET missing = coalesce(missing, $2) WHERE id = $1");
        command.Parameters.Add(Of(claim.Id));
        command.Parameters.Add(Of(missing));
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    /// <summary>Takes a chunk off the list.</summary>
    /// <returns>Its last asset, null when nothing was left, and how many were retired.</returns>
    private async Task<(string? Last, long Retired)> UnlistAsync(RegisterSyncClaim claim, WhenMissing whenMissing, string after, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await RegisterPageWriter.HoldAsync(connection, claim.Id, claim.Worker, clock.GetUtcNow() + syncs.Lease, cancellationToken);
        await RunAsync(connection, RegisterSyncSql.InOrder, [], cancellationToken);
        var missing = new List<string>();
        await ReadAsync(
            connection, RegisterSyncSql.Missing, [Of(claim.SourceName), Of(claim.Id), Of(AssetBulkWriter.ChunkSize), Of(after)], r => missing.Add(r.GetString(0)), cancellationToken);
        if (missing.Count == 0)
            return (null, 0);
        // Back to what the server prefers.
        await RunAsync(connection, "RESET enable_nestloop; RESET enable_hashjoin", [], cancellationToken);
        var gone = new List<string>();
        await ReadAsync(
            connection, RegisterSyncSql.Unlist, [Of(claim.SourceName), Of<string[]>([.. missing])],
            r =>
            {
                if (!r.GetBoolean(1))
                    gone.Add(r.GetString(0));
            },
            cancellationToken);
        var retired = whenMissing == WhenMissing.Retire && gone.Count > 0
            ? await assets.RetireAsync(transaction, gone, new(null, Reason + claim.SourceName), claim.SourceName, cancellationToken)
            : [];
        await RunAsync(connection, "UPDATE register_syncs SET retired = retired + $2 WHERE id = $1", [Of(claim.Id), Of((long)retired.Count)], cancellationToken);
        await transaction.CommitAsync(cancellationToken);
        return (missing[^1], retired.Count);
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.AddRange(parameters);
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    private static async Task ReadAsync(
        NpgsqlConnection connection, string sql, NpgsqlParameter[] parameters, Action<NpgsqlDataReader> row, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.AddRange(parameters);
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            row(reader);
    }

    private async Task<RegisterSyncEnd> EndAsync(RegisterSyncClaim claim, RegisterSyncEnd end, SourceNote? held, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        var now = clock.GetUtcNow();
        await RegisterPageWriter.HoldAsync(connection, claim.Id, claim.Worker, now + syncs.Lease, cancellationToken);
        await using var batch = new NpgsqlBatch(connection);
        batch.BatchCommands.Add(new(
            """
            UPDATE register_syncs SET state = $2, ended_at = $3, claimed_by = NULL, claimed_until = NULL, missing = coalesce(missing, $4), reason_code = $5, reason_detail = $6
            WHERE id = $1
            RETURNING rows, created, changed, refused
            """)
        {
            Parameters =
            {
                Of(claim.Id), Of(end.State == RegisterSyncState.Held ? "held" : "done"), Of(now), Of(end.Missing, NpgsqlDbType.Bigint),
                Of(held?.Code, NpgsqlDbType.Text), Of(held?.Detail, NpgsqlDbType.Text),
            },
        });
        batch.BatchCommands.Add(new(RegisterSyncSql.Forget) { Parameters = { Of(claim.SourceName) } });
        batch.BatchCommands.Add(new(RegisterSyncSql.Prune) { Parameters = { Of(claim.SourceName), Of((long)RegisterSyncs.MostRunsKept - 1) } });
        await using (var reader = await batch.ExecuteReaderAsync(cancellationToken))
        {
            await reader.ReadAsync(cancellationToken);
            end = end with { Rows = reader.GetInt64(0), Created = reader.GetInt64(1), Changed = reader.GetInt64(2), Refused = reader.GetInt64(3) };
            while (await reader.NextResultAsync(cancellationToken))
            {
                // The rest of the batch gives no rows.
            }
        }

        await transaction.CommitAsync(cancellationToken);
        return end;
    }
}
