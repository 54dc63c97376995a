using System.Diagnostics;
using Npgsql;
using NpgsqlTypes;
using TagService.Domain.Recommendations;
using TagService.Storage.Changes;

namespace TagService.Storage.Bulk;

/// <summary>The two halves of writing different assets: to find those that differ, and to write these within one transaction.</summary>
internal static class AssetChunk
{
    /// <summary>Places of those that the mirror has not or has otherwise. One statement, which holds nothing.</summary>
    public static async Task<IReadOnlyList<int>> DifferingAsync(NpgsqlConnection connection, IReadOnlyList<PreparedAsset> assets, CancellationToken cancellationToken)
    {
        // Neighbours in the index one after another; the order in which rows are held is up to the statements that hold them.
        var order = Enumerable.Range(0, assets.Count).ToArray();
        Array.Sort(order, (a, b) => string.CompareOrdinal(assets[a].AssetId, assets[b].AssetId));
        var differing = new List<int>();
        await ReadAsync(
            connection, AssetSql.Differ,
            [
                Of<string[]>([.. order.Select(i => assets[i].AssetId)]), Of<byte[][]>([.. order.Select(i => assets[i].Hash)]),
                Of<DateTimeOffset?[]>([.. order.Select(i => assets[i].Asset.Retired?.At?.ToUniversalTime())]),
            ],
            r => differing.Add(order[(int)r.GetInt64(0) - 1]), cancellationToken);
        return differing;
    }

    /// <summary>Writes those that still differ once they are held.</summary>
    /// <returns>What happened to each, by id.</returns>
    public static async Task<IReadOnlyDictionary<string, AssetWritten>> WriteAsync(
        NpgsqlTransaction transaction, IReadOnlyList<PreparedAsset> assets, string source, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var connection = transaction.Connection ?? throw new InvalidOperationException("The transaction has ended.");
        var written = assets.ToDictionary(a => a.AssetId, a => new AssetWritten(a.AssetId, AssetOutcome.Unchanged, BroughtBack: false), StringComparer.Ordinal);
        await StageAsync(connection, assets, cancellationToken);
        await using var batch = new NpgsqlBatch(connection);
        batch.BatchCommands.Add(Command(AssetSql.Create, Origin(source, now)));
        batch.BatchCommands.Add(Command(AssetSql.Hold, []));
        batch.BatchCommands.Add(Command(AssetSql.Change, Origin(source, now)));
        batch.BatchCommands.Add(Command(AssetSql.Rehash, []));
        await using var reader = await batch.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            Set(AssetOutcome.Created, broughtBack: false);
        await reader.NextResultAsync(cancellationToken);
        await reader.NextResultAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            Set(AssetOutcome.Changed, reader.GetBoolean(1));
        await reader.NextResultAsync(cancellationToken);
        return written;

        void Set(AssetOutcome outcome, bool broughtBack)
        {
            var assetId = reader.GetString(0);
            written[assetId] = written.ContainsKey(assetId)
                ? new(assetId, outcome, broughtBack)
                : throw new InvalidOperationException($"The server wrote asset {assetId}, which was not sent.");
        }
    }

    /// <summary>Retires those in service.</summary>
    public static async Task<IReadOnlyList<string>> RetireAsync(
        NpgsqlTransaction transaction, string[] assetIds, Retirement retired, string source, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var connection = transaction.Connection ?? throw new InvalidOperationException("The transaction has ended.");
        await RunAsync(connection, AssetSql.Settings, cancellationToken);
        var held = new List<string>();
        await ReadAsync(connection, AssetSql.HoldInService, [Of(assetIds)], r => held.Add(r.GetString(0)), cancellationToken);
        if (held.Count == 0)
            return held;
        var done = new List<string>();
        await ReadAsync(
            connection, AssetSql.Retire,
            [.. Origin(source, now), Of<string[]>([.. held]), Of((retired.At ?? now).ToUniversalTime()), Of(retired.Reason, NpgsqlDbType.Text)],
            r => done.Add(r.GetString(0)), cancellationToken);
        return done;
    }

    /// <summary>Adds assets of which only the id is known; those that exist stay as they are.</summary>
    public static async Task CreateThinAsync(
        NpgsqlConnection connection, IReadOnlyList<string> assetIds, string source, DateTimeOffset now, CancellationToken cancellationToken)
    {
        AssetToLoad[] assets = [.. assetIds.Select(id => new AssetToLoad(new() { AssetId = id }, null))];
        await using var batch = new NpgsqlBatch(connection);
        batch.BatchCommands.Add(Command("SET LOCAL timezone = 'UTC'", []));
        batch.BatchCommands.Add(Command(
            AssetSql.CreateThin,
            [
                .. Origin(source, now), Of<string[]>([.. assetIds]), Of<string[]>([.. assets.Select(a => AssetRecordJson.Write(a.Record))]),
                Of<byte[][]>([.. assets.Select(a => AssetContent.HashOf(a, source))]), Of(EngineInput.KeyOf(new())),
            ]));
        await batch.ExecuteNonQueryAsync(cancellationToken);
    }

    private static async Task StageAsync(NpgsqlConnection connection, IReadOnlyList<PreparedAsset> assets, CancellationToken cancellationToken)
    {
        var texts = RowsAtOnce.Select(assets, a => (Json: AssetContent.JsonOf(a.Asset), InputKey: EngineInput.KeyOf(a.Asset.Record)));
        await RunAsync(connection, AssetSql.Stage, cancellationToken);
        ulong kept;
        // Every value names its database type: without it Npgsql may send another type's bytes (its documentation, "COPY").
        await using (var copy = await connection.BeginBinaryImportAsync(AssetSql.Copy, cancellationToken))
        {
            foreach (var ((asset, assetId, hash), (json, inputKey)) in assets.Zip(texts))
            {
                await copy.StartRowAsync(cancellationToken);
                await copy.WriteAsync(assetId, NpgsqlDbType.Text, cancellationToken);
                await copy.WriteAsync(json, NpgsqlDbType.Jsonb, cancellationToken);
                await TextAsync(copy, asset.LocationName, cancellationToken);
                await TextAsync(copy, asset.RegisterTag, cancellationToken);
                await TextAsync(copy, RegisterTagKey.Of(asset.RegisterTag), cancellationToken);
                await copy.WriteAsync(asset.Retired is not null, NpgsqlDbType.Boolean, cancellationToken);
                if (asset.Retired?.At is { } at)
                    await copy.WriteAsync(at.ToUniversalTime(), NpgsqlDbType.TimestampTz, cancellationToken);
                else
                    await copy.WriteNullAsync(cancellationToken);
                await TextAsync(copy, asset.Retired?.Reason, cancellationToken);
                await copy.WriteAsync(hash, NpgsqlDbType.Bytea, cancellationToken);
                await copy.WriteAsync(inputKey, NpgsqlDbType.Text, cancellationToken);
            }

            kept = await copy.CompleteAsync(cancellationToken);
        }

        // A COPY that is not completed, or a trigger that drops rows, says nothing: count.
        if (kept != (ulong)assets.Count)
            throw new InvalidOperationException($"COPY of assets: {assets.Count} rows were sent, the server kept {kept}.");
    }

    private static Task TextAsync(NpgsqlBinaryImporter copy, string? text, CancellationToken cancellationToken) =>
        text is null ? copy.WriteNullAsync(cancellationToken) : copy.WriteAsync(text, NpgsqlDbType.Text, cancellationToken);

    private static NpgsqlParameter[] Origin(string source, DateTimeOffset now) =>
        [Of(source), Of(now.ToUniversalTime()), Of(ChangeOrigin.Actor), Of(Activity.Current?.TraceId.ToHexString(), NpgsqlDbType.Text)];

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private static NpgsqlParameter Of(string? value, NpgsqlDbType type) => new() { Value = (object?)value ?? DBNull.Value, NpgsqlDbType = type };

    private static NpgsqlBatchCommand Command(string sql, NpgsqlParameter[] parameters)
    {
        var command = new NpgsqlBatchCommand(sql);
        foreach (var parameter in parameters)
            command.Parameters.Add(parameter);
        return command;
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
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
}
