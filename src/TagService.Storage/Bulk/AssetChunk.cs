using System.Diagnostics;
using Npgsql;
using NpgsqlTypes;
using TagService.Domain.Recommendations;
using TagService.Storage.Changes;

namespace TagService.Storage.Bulk;

/// <summary>One chunk of different assets, written within one transaction.</summary>
internal static class AssetChunk
{
    public static async Task<AssetWritten[]> WriteAsync(
        NpgsqlTransaction transaction, ArraySegment<PreparedAsset> assets, string source, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var connection = transaction.Connection ?? throw new InvalidOperationException("The transaction has ended.");
        // Ordered here only so that the database finds neighbours; the order in which rows are held is the statements' own.
        var order = Enumerable.Range(0, assets.Count).ToArray();
        Array.Sort(order, (a, b) => string.CompareOrdinal(assets[a].AssetId, assets[b].AssetId));
        await RunAsync(connection, AssetSql.Settings, [], cancellationToken);
        var outcomes = new AssetWritten[assets.Count];
        for (var i = 0; i < outcomes.Length; i++)
            outcomes[i] = new(assets[i].AssetId, AssetOutcome.Unchanged, BroughtBack: false);
        List<int> differing = [.. (await DifferingAsync(connection, assets, order, cancellationToken)).Select(n => order[n])];
        if (differing.Count == 0)
            return outcomes;

        await StageAsync(connection, assets, differing, cancellationToken);
        var places = differing.ToDictionary(i => assets[i].AssetId, StringComparer.Ordinal);
        await ReadAsync(connection, AssetSql.Create, Origin(source, now), r => Set(r.GetString(0), AssetOutcome.Created, broughtBack: false), cancellationToken);
        if (places.Count > 0)
        {
            await ReadAsync(connection, AssetSql.Hold, [], _ => { }, cancellationToken);
            await ReadAsync(connection, AssetSql.Change, Origin(source, now), r => Set(r.GetString(0), AssetOutcome.Changed, r.GetBoolean(1)), cancellationToken);
            if (places.Count > 0)
                await RunAsync(connection, AssetSql.Rehash, [], cancellationToken);
        }

        return outcomes;

        void Set(string assetId, AssetOutcome outcome, bool broughtBack)
        {
            if (!places.Remove(assetId, out var i))
                throw new InvalidOperationException($"The server wrote asset {assetId}, which was not sent.");
            outcomes[i] = new(assetId, outcome, broughtBack);
        }
    }

    public static async Task<IReadOnlyList<string>> RetireAsync(
        NpgsqlTransaction transaction, string[] assetIds, Retirement retired, string source, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var connection = transaction.Connection ?? throw new InvalidOperationException("The transaction has ended.");
        await RunAsync(connection, AssetSql.Settings, [], cancellationToken);
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

    /// <summary>Positions within <paramref name="order"/>.</summary>
    private static async Task<List<int>> DifferingAsync(
        NpgsqlConnection connection, ArraySegment<PreparedAsset> assets, int[] order, CancellationToken cancellationToken)
    {
        var differing = new List<int>();
        await ReadAsync(
            connection, AssetSql.Differ,
            [
                Of<string[]>([.. order.Select(i => assets[i].AssetId)]), Of<byte[][]>([.. order.Select(i => assets[i].Hash)]),
                Of<DateTimeOffset?[]>([.. order.Select(i => assets[i].Asset.Retired?.At?.ToUniversalTime())]),
            ],
            r => differing.Add((int)r.GetInt64(0) - 1), cancellationToken);
        return differing;
    }

    private static async Task StageAsync(
        NpgsqlConnection connection, ArraySegment<PreparedAsset> assets, List<int> which, CancellationToken cancellationToken)
    {
        await RunAsync(connection, AssetSql.Stage, [], cancellationToken);
        ulong kept;
        // Every value names its database type: without it Npgsql may send another type's bytes (its documentation, "COPY").
        await using (var copy = await connection.BeginBinaryImportAsync(AssetSql.Copy, cancellationToken))
        {
            foreach (var i in which)
            {
                var (asset, assetId, json, hash) = assets[i];
                await copy.StartRowAsync(cancellationToken);
                await copy.WriteAsync(assetId, NpgsqlDbType.Text, cancellationToken);
                await copy.WriteAsync(json, NpgsqlDbType.Jsonb, cancellationToken);
                await TextAsync(copy, asset.LocationName, cancellationToken);
                await TextAsync(copy, asset.RegisterTag, cancellationToken);
                await copy.WriteAsync(asset.Retired is not null, NpgsqlDbType.Boolean, cancellationToken);
                if (asset.Retired?.At is { } at)
                    await copy.WriteAsync(at.ToUniversalTime(), NpgsqlDbType.TimestampTz, cancellationToken);
                else
                    await copy.WriteNullAsync(cancellationToken);
                await TextAsync(copy, asset.Retired?.Reason, cancellationToken);
                await copy.WriteAsync(hash, NpgsqlDbType.Bytea, cancellationToken);
                await copy.WriteAsync(EngineInput.KeyOf(asset.Record), NpgsqlDbType.Text, cancellationToken);
            }

            kept = await copy.CompleteAsync(cancellationToken);
        }

        // A COPY that is not completed, or a trigger that drops rows, says nothing: count.
        if (kept != (ulong)which.Count)
            throw new InvalidOperationException($"COPY of assets: {which.Count} rows were sent, the server kept {kept}.");
    }

    private static Task TextAsync(NpgsqlBinaryImporter copy, string? text, CancellationToken cancellationToken) =>
        text is null ? copy.WriteNullAsync(cancellationToken) : copy.WriteAsync(text, NpgsqlDbType.Text, cancellationToken);

    private static NpgsqlParameter[] Origin(string source, DateTimeOffset now) =>
        [Of(source), Of(now.ToUniversalTime()), Of(ChangeOrigin.Actor), Of(Activity.Current?.TraceId.ToHexString(), NpgsqlDbType.Text)];

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private static NpgsqlParameter Of(string? value, NpgsqlDbType type) => new() { Value = (object?)value ?? DBNull.Value, NpgsqlDbType = type };

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
}
