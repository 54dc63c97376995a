using System.Globalization;
using Npgsql;
using NpgsqlTypes;
using TagService.Storage.Bulk;

namespace TagService.Storage.Registers;

/// <summary>
/// One page of a run in one transaction: its assets, its refused rows, its counts and the position behind it are all kept or none. The
/// steps are called in the order in which they stand here; disposing it without a commit leaves everything as it was.
/// </summary>
public sealed class RegisterPageWriter : IAsyncDisposable
{
    private readonly NpgsqlConnection _connection;
    private readonly NpgsqlTransaction _transaction;
    private readonly AssetBulkWriter _assets;
    private readonly RegisterSyncClaim _claim;
    private long _created;
    private long _changed;
    private long _unchanged;
    private long _broughtBack;

    private RegisterPageWriter(NpgsqlConnection connection, NpgsqlTransaction transaction, AssetBulkWriter assets, RegisterSyncClaim claim, string? before)
    {
        (_connection, _transaction, _assets, _claim, Before) = (connection, transaction, assets, claim, before);
    }

    /// <summary>The position behind the pages that are written.</summary>
    public string? Before { get; }

    /// <summary>Begins a page.</summary>
    /// <exception cref="RegisterSyncLostException">The run is no longer this worker's.</exception>
    internal static async Task<RegisterPageWriter> BeginAsync(
        NpgsqlDataSource dataSource, AssetBulkWriter assets, RegisterSyncClaim claim, DateTimeOffset until, CancellationToken cancellationToken)
    {
        var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        try
        {
            var transaction = await connection.BeginTransactionAsync(cancellationToken);
            var before = await HoldAsync(connection, claim.Id, claim.Worker, until, cancellationToken);
            // Some thousand keys are looked up one by one; the server would rather read the whole list for each page.
            await using (var settings = new NpgsqlCommand(AssetSql.Settings, connection))
                await settings.ExecuteNonQueryAsync(cancellationToken);
            return new(connection, transaction, assets, claim, before);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    /// <summary>Which rows the source had exactly like that before: nothing more is to be done with them.</summary>
    /// <param name="rowHashes">Hashes of different rows.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>Their places in the list.</returns>
    public async Task<IReadOnlyList<int>> KnownAsync(IReadOnlyList<byte[]> rowHashes, CancellationToken cancellationToken)
    {
        var known = new List<int>();
        // Neighbours in the index one after another.
        var order = Enumerable.Range(0, rowHashes.Count).ToArray();
        Array.Sort(order, (a, b) => rowHashes[a].AsSpan().SequenceCompareTo(rowHashes[b]));
        await ReadAsync(
            RegisterSyncSql.Known, [Of(_claim.Id), Of(_claim.SourceName), Of<byte[][]>([.. order.Select(i => rowHashes[i])])],
            r => known.Add(order[(int)r.GetInt64(0) - 1]), cancellationToken);
        _unchanged += known.Count;
        return known;
    }

    /// <summary>Notes that the run came across assets, also by rows that are refused.</summary>
    /// <param name="assetIds">Different ids.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>Those that it had not met before.</returns>
    public async Task<IReadOnlySet<string>> MeetAsync(IReadOnlyCollection<string> assetIds, CancellationToken cancellationToken)
    {
        var met = new HashSet<string>(StringComparer.Ordinal);
        await ReadAsync(RegisterSyncSql.Meet, [Of(_claim.Id), Of<string[]>([.. assetIds])], r => met.Add(r.GetString(0)), cancellationToken);
        return met;
    }

    /// <summary>The assets as the mirror has them; they are held to the end of the page. Unknown ones are left out.</summary>
    public async Task<IReadOnlyDictionary<string, StoredListing>> HoldAssetsAsync(IReadOnlyCollection<string> assetIds, CancellationToken cancellationToken)
    {
        var held = new Dictionary<string, StoredListing>(StringComparer.Ordinal);
        await ReadAsync(RegisterSyncSql.HoldAssets, [Of(_claim.SourceName), Of<string[]>([.. assetIds])], r => held.Add(r.GetString(0), Listing(r)), cancellationToken);
        return held;
    }

    /// <summary>Writes different assets and that the source lists them.</summary>
    public async Task WriteAsync(IReadOnlyList<ListedAsset> assets, CancellationToken cancellationToken)
    {
        if (assets.Count == 0)
            return;
        foreach (var written in await _assets.WriteAsync(_transaction, [.. assets.Select(a => a.Asset)], _claim.SourceName, cancellationToken))
        {
            _created += written.Outcome == AssetOutcome.Created ? 1 : 0;
            _changed += written.Outcome == AssetOutcome.Changed ? 1 : 0;
            _unchanged += written.Outcome == AssetOutcome.Unchanged ? 1 : 0;
            _broughtBack += written.BroughtBack ? 1 : 0;
        }

        await RunAsync(
            RegisterSyncSql.List,
            [Of(_claim.SourceName), Of<string[]>([.. assets.Select(a => a.Asset.Record.AssetId!)]), Of<byte[][]>([.. assets.Select(a => a.RowHash)])], cancellationToken);
    }

    /// <summary>Keeps refused rows, counts and position, and makes the page durable.</summary>
    /// <param name="page">What the page came to.</param>
    /// <param name="refusedBefore">Rows that the run has refused before this page.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public async Task CommitAsync(PageResult page, long refusedBefore, CancellationToken cancellationToken)
    {
        if (page.Refused.Count > 0)
            await CopyRefusedAsync(page.Refused, refusedBefore, cancellationToken);
        await RunAsync(
            RegisterSyncSql.Advance,
            [
                Of(_claim.Id), Of(page.Position), Of(page.Rows), Of(_created), Of(_changed), Of(_unchanged), Of((long)page.Refused.Count), Of(page.Repeated), Of(_broughtBack),
                new NpgsqlParameter { Value = (object?)page.Announced ?? DBNull.Value, NpgsqlDbType = NpgsqlDbType.Bigint },
                new NpgsqlParameter { Value = StoredJson.Write(page.Notes), NpgsqlDbType = NpgsqlDbType.Jsonb },
            ],
            cancellationToken);
        await _transaction.CommitAsync(cancellationToken);
    }

    /// <inheritdoc />
    public ValueTask DisposeAsync() => _connection.DisposeAsync();

    /// <summary>Holds a run to the end of the transaction.</summary>
    /// <returns>Its position.</returns>
    /// <exception cref="RegisterSyncLostException">It is no longer this worker's.</exception>
    internal static async Task<string?> HoldAsync(NpgsqlConnection connection, long id, Guid worker, DateTimeOffset until, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(RegisterSyncSql.Hold, connection) { Parameters = { Of(id), Of(worker), Of(until) } };
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        if (!await reader.ReadAsync(cancellationToken))
            throw new RegisterSyncLostException(id);
        return reader.IsDBNull(0) ? null : reader.GetString(0);
    }

    private static StoredListing Listing(NpgsqlDataReader reader)
    {
        string? Text(int column) => reader.IsDBNull(column) ? null : reader.GetString(column);
        var content = new AssetToLoad(AssetRecordJson.Read(reader.GetString(1)), Text(2))
        {
            RegisterTag = Text(3),
            Retired = reader.IsDBNull(4) ? null : new(reader.GetFieldValue<DateTimeOffset>(4), Text(5)),
        };
        return new(content, reader.GetString(6), reader.GetBoolean(7));
    }

    private static NpgsqlParameter<T> Of<T>(T value) => new() { TypedValue = value };

    private async Task CopyRefusedAsync(IReadOnlyList<RefusedRow> rows, long before, CancellationToken cancellationToken)
    {
        await using var copy = await _connection.BeginBinaryImportAsync(RegisterSyncSql.CopyRejected, cancellationToken);
        var number = before;
        foreach (var row in rows)
        {
            await copy.StartRowAsync(cancellationToken);
            await copy.WriteAsync(_claim.Id, NpgsqlDbType.Bigint, cancellationToken);
            await copy.WriteAsync(++number, NpgsqlDbType.Bigint, cancellationToken);
            await copy.WriteAsync(row.Place, NpgsqlDbType.Text, cancellationToken);
            if (row.AssetId is null)
                await copy.WriteNullAsync(cancellationToken);
            else
                await copy.WriteAsync(row.AssetId, NpgsqlDbType.Text, cancellationToken);
            await copy.WriteAsync(row.Reason, NpgsqlDbType.Text, cancellationToken);
            await copy.WriteAsync(StoredJson.Write(row.Problems), NpgsqlDbType.Jsonb, cancellationToken);
            await copy.WriteAsync(row.OriginalText, NpgsqlDbType.Text, cancellationToken);
        }

        var kept = await copy.CompleteAsync(cancellationToken);
        if (kept != (ulong)rows.Count)
            throw new InvalidOperationException(string.Create(CultureInfo.InvariantCulture, $"COPY of refused rows: {rows.Count} rows were sent, the server kept {kept}."));
    }

    private async Task RunAsync(string sql, NpgsqlParameter[] parameters, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, _connection);
        command.Parameters.AddRange(parameters);
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    private async Task ReadAsync(string sql, NpgsqlParameter[] parameters, Action<NpgsqlDataReader> row, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, _connection);
        command.Parameters.AddRange(parameters);
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
            row(reader);
    }
}
