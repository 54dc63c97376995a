using Npgsql;
using TagService.Domain.Attachments;
using TagService.Domain.Fitting;
using TagService.Domain.TagClasses;
using TagService.Storage.Bulk;
using TagService.Storage.Measurements;
using TagService.Storage.Tables;

namespace TagService.Storage.Attachments;

/// <summary>Records lines of a batch, some hundreds at a time, each time in one transaction with a fixed number of statements.</summary>
public sealed class AttachmentBatchWriter(NpgsqlDataSource dataSource, TimeProvider clock)
{
    /// <summary>Lines in one transaction at most. More would hold tags longer than single requests should wait.</summary>
    public const int MaxLines = 1000;

    private const int Attempts = 5;

    /// <summary>
    /// Records lines in their order. What the server ends to resolve a ring of waiting, and a connection that was lost, is tried again:
    /// lines that were kept after all are then known.
    /// </summary>
    /// <param name="entries">The lines, at most <see cref="MaxLines"/>.</param>
    /// <param name="createAssets">Make thin records of assets that the mirror does not have.</param>
    /// <param name="findClass">Finds a tag class, for what checks are worth.</param>
    /// <param name="cancellationToken">Gives up; nothing is kept then.</param>
    /// <returns>What became of each, in the same order.</returns>
    public async Task<IReadOnlyList<BatchResult>> WriteAsync(
        IReadOnlyList<BatchEntry> entries, bool createAssets, Func<string, TagClass?> findClass, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(entries.Count, MaxLines);
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TryWriteAsync(entries, createAssets, findClass, cancellationToken);
            }
            catch (NpgsqlException e) when (e.IsTransient && attempt < Attempts)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(50 * attempt), clock, cancellationToken);
            }
        }
    }

    /// <summary>Ids of tag batches, the latest first and not without end: for finding the one somebody meant.</summary>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task<IReadOnlyCollection<string>> TagBatchIdsAsync(CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        return await ReadTextsAsync(connection, AttachmentBatchSql.LatestBatches, [], cancellationToken);
    }

    private async Task<IReadOnlyList<BatchResult>> TryWriteAsync(
        IReadOnlyList<BatchEntry> entries, bool createAssets, Func<string, TagClass?> findClass, CancellationToken cancellationToken)
    {
        // What the database keeps, so that what is compared later is what was written.
        var now = Moment.At(clock.GetUtcNow()).Exact!.Value;
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        var assets = await AssetsAsync(connection, entries, createAssets, now, cancellationToken);
        var batches = await KnownAsync(
            connection, AttachmentBatchSql.KnownBatches, [.. entries.Select(e => e.Line.Attachment.TagBatchId).OfType<string>().Distinct(StringComparer.Ordinal)], cancellationToken);
        var taken = entries.Where(e => assets.Contains(e.Line.Attachment.AssetId)).ToList();
        string[] assetsOfPrevious = [.. taken.Where(e => e.Line.Previous is not null).Select(e => e.Line.Attachment.AssetId).Distinct()];
        var tags = await TagLocks.TakeAsync(connection, [.. taken.Select(e => e.Tag)], assetsOfPrevious, now, cancellationToken);
        var stored = await ReadAsync(connection, tags, cancellationToken);
        var ledger = new AttachmentLedger(stored.Values.Select(s => s.Attachment));
        BatchResult[] results = [.. entries.Select(e => Take(e.Line, ledger, assets, batches, now))];
        var changed = ledger.Changed.Select(a => (Before: (AttachmentRow?)stored.GetValueOrDefault(a.Id).Row, After: a.ToRow(tags[a.Tag]))).ToList();
        await EndAsync(connection, [.. changed.Where(c => c.Before is not null).Select(c => c.After)], cancellationToken);
        await CopyAsync(connection, [.. changed.Where(c => c.Before is null).Select(c => c.After)], cancellationToken);
        await CopyChangesAsync(connection, changed, now, cancellationToken);
        var checks = await AttachmentFindings.WriteAsync(connection, ledger, null, findClass, now, cancellationToken);
        await transaction.CommitAsync(cancellationToken);
        return checks.Count == 0 ? results : [.. results.Select(r => WithCheck(r, checks))];
    }

    // A line that was taken before changes nothing, even if it names a batch that nobody has entered since.
    private static BatchResult Take(RecordedLine line, AttachmentLedger ledger, HashSet<string> assets, HashSet<string> batches, DateTimeOffset now) =>
        !assets.Contains(line.Attachment.AssetId) ? new BatchResult.NoSuchAsset()
        : line.Attachment.TagBatchId is { } batch && !batches.Contains(batch) && line.TakenBefore(ledger) is null ? new BatchResult.NoSuchTagBatch(batch)
        : new BatchResult.Taken((line with { Attachment = line.Attachment with { RecordedAt = now } }).TakeInto(ledger, now), null);

    private static BatchResult WithCheck(BatchResult result, IReadOnlyDictionary<Guid, CheckFinding> checks) =>
        result is BatchResult.Taken { Recording: Recording.Started started } taken ? taken with { Check = checks.GetValueOrDefault(started.Attachment.Id) } : result;

    private static async Task<HashSet<string>> AssetsAsync(
        NpgsqlConnection connection, IReadOnlyList<BatchEntry> entries, bool create, DateTimeOffset now, CancellationToken cancellationToken)
    {
        string[] wanted = [.. entries.Select(e => e.Line.Attachment.AssetId).Distinct(StringComparer.Ordinal)];
        if (create)
        {
            await AssetChunk.CreateThinAsync(connection, wanted, AssetSources.Attachments, now, cancellationToken);
            return [.. wanted];
        }

        return await KnownAsync(connection, AttachmentBatchSql.KnownAssets, wanted, cancellationToken);
    }

    private static async Task<HashSet<string>> KnownAsync(NpgsqlConnection connection, string sql, string[] wanted, CancellationToken cancellationToken)
    {
        return wanted.Length == 0 ? [] : await ReadTextsAsync(connection, sql, [Of(wanted)], cancellationToken);
    }

    private static async Task<HashSet<string>> ReadTextsAsync(NpgsqlConnection connection, string sql, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        var known = new HashSet<string>(StringComparer.Ordinal);
        await using var look = new NpgsqlCommand(sql, connection);
        look.Parameters.AddRange(parameters);
        await using var reader = await look.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            known.Add(reader.GetString(0));
        return known;
    }

    private static async Task<Dictionary<Guid, (AttachmentRow Row, Attachment Attachment)>> ReadAsync(
        NpgsqlConnection connection, Dictionary<string, long> tags, CancellationToken cancellationToken)
    {
        var identities = tags.ToDictionary(t => t.Value, t => t.Key);
        var stored = new Dictionary<Guid, (AttachmentRow, Attachment)>();
        await using var command = new NpgsqlCommand(AttachmentBatchSql.Read, connection) { Parameters = { Of<long[]>([.. identities.Keys]) } };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
        {
            var row = AttachmentColumns.Read(reader);
            stored[row.Id] = (row, row.ToAttachment(identities[row.TagId]));
        }

        return stored;
    }

    private static async Task EndAsync(NpgsqlConnection connection, AttachmentRow[] ended, CancellationToken cancellationToken)
    {
        if (ended.Length == 0)
            return;
        await using var command = new NpgsqlCommand(AttachmentBatchSql.End, connection)
        {
            Parameters =
            {
                Of<long[]>([.. ended.Select(r => r.TagId)]), Of<Guid[]>([.. ended.Select(r => r.Id)]), Of<DateTimeOffset?[]>([.. ended.Select(r => r.EndNotBefore)]),
                Of<DateTimeOffset?[]>([.. ended.Select(r => r.EndNotAfter)]), Of<string?[]>([.. ended.Select(r => r.EndReason)]),
                Of<bool[]>([.. ended.Select(r => r.IsVoid)]), Of<Guid?[]>([.. ended.Select(r => r.EndedByLine)]),
            },
        };
        Kept(await command.ExecuteNonQueryAsync(cancellationToken), ended.Length);
    }

    private static async Task CopyAsync(NpgsqlConnection connection, AttachmentRow[] rows, CancellationToken cancellationToken)
    {
        if (rows.Length == 0)
            return;
        await using var copy = await connection.BeginBinaryImportAsync(AttachmentBatchSql.Copy, cancellationToken);
        foreach (var row in rows)
            await AttachmentColumns.WriteAsync(copy, row, cancellationToken);
        Kept((long)await copy.CompleteAsync(cancellationToken), rows.Length);
    }

    private static async Task CopyChangesAsync(
        NpgsqlConnection connection, List<(AttachmentRow? Before, AttachmentRow After)> changed, DateTimeOffset now, CancellationToken cancellationToken)
    {
        if (changed.Count == 0)
            return;
        await using var copy = await connection.BeginBinaryImportAsync(AttachmentBatchSql.CopyChanges, cancellationToken);
        foreach (var (before, after) in changed)
            await AttachmentColumns.WriteChangeAsync(copy, before, after, now, cancellationToken);
        Kept((long)await copy.CompleteAsync(cancellationToken), changed.Count);
    }

    // A COPY that is not completed, or a trigger that drops rows, says nothing: count.
    private static void Kept(long kept, int sent)
    {
        if (kept != sent)
            throw new InvalidOperationException($"Attachments: {sent} rows were sent, the server kept {kept}.");
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };
}
