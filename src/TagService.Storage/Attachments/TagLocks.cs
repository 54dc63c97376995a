using Npgsql;

namespace TagService.Storage.Attachments;

/// <summary>Finds tags, makes those that are new, and holds their rows until the transaction ends.</summary>
internal static class TagLocks
{
    /// <summary>Numbers of the tags, and of those open on assets whose open attachments are wanted too, by identity.</summary>
    /// <param name="connection">A connection within a transaction.</param>
    /// <param name="tags">Tags that are being recorded.</param>
    /// <param name="assetsOfPrevious">Assets whose open attachments are wanted too.</param>
    /// <param name="now">The time of recording.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<Dictionary<string, long>> TakeAsync(
        NpgsqlConnection connection, IReadOnlyCollection<TagSeen> tags, string[] assetsOfPrevious, DateTimeOffset now, CancellationToken cancellationToken)
    {
        // The first mention of an identity counts; what it lacks is filled from later ones.
        var seen = tags.GroupBy(t => t.Identity, StringComparer.Ordinal).Select(g => new TagSeen(
            g.Key, g.Select(t => t.EpcHex).FirstOrDefault(h => h is not null), g.Select(t => t.Scheme).FirstOrDefault(s => s is not null),
            g.Select(t => t.TidHex).FirstOrDefault(h => h is not null))).ToList();
        var ids = new Dictionary<string, long>(StringComparer.Ordinal);
        if (assetsOfPrevious.Length > 0)
            await RunAsync(connection, TagSql.LockAssets, [Of(assetsOfPrevious)], cancellationToken);
        string[] identities = [.. seen.Select(t => t.Identity)];
        await ReadAsync(connection, ids, TagSql.LockKnown, [Of(identities), Of(assetsOfPrevious)], cancellationToken);

        var missing = seen.FindAll(t => !ids.ContainsKey(t.Identity));
        if (missing.Count < seen.Count && seen.Exists(t => t.EpcHex is not null || t.TidHex is not null))
            await RunAsync(connection, TagSql.Complete, Columns(seen.FindAll(t => ids.ContainsKey(t.Identity))), cancellationToken);
        if (missing.Count == 0)
            return ids;
        await ReadAsync(connection, ids, TagSql.Insert, [.. Columns(missing), Of(now)], cancellationToken);
        string[] madeByOthers = [.. missing.Where(t => !ids.ContainsKey(t.Identity)).Select(t => t.Identity)];
        if (madeByOthers.Length > 0)
            await ReadAsync(connection, ids, TagSql.LockKnown, [Of(madeByOthers), Of(Array.Empty<string>())], cancellationToken);
        return ids;
    }

    private static NpgsqlParameter[] Columns(List<TagSeen> tags) =>
    [
        Of<string[]>([.. tags.Select(t => t.Identity)]), Of<string?[]>([.. tags.Select(t => t.EpcHex)]),
        Of<string?[]>([.. tags.Select(t => t.Scheme)]), Of<string?[]>([.. tags.Select(t => t.TidHex)]),
    ];

    private static async Task ReadAsync(
        NpgsqlConnection connection, Dictionary<string, long> ids, string sql, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.AddRange(parameters);
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            ids[reader.GetString(1)] = reader.GetInt64(0);
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        command.Parameters.AddRange(parameters);
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };
}
