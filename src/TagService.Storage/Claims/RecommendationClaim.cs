using Npgsql;
using TagService.Storage.Tables;

namespace TagService.Storage.Claims;

/// <summary>A batch of assets held by this worker until it is stored or disposed.</summary>
public sealed class RecommendationClaim : IAsyncDisposable
{
    private readonly NpgsqlConnection _connection;
    private readonly NpgsqlTransaction _transaction;
    private readonly bool _keepKeys;

    internal RecommendationClaim(
        NpgsqlConnection connection, NpgsqlTransaction transaction, IReadOnlyList<ClaimedAsset> assets, string lastAssetId, bool keepKeys)
    {
        _keepKeys = keepKeys;
        _connection = connection;
        _transaction = transaction;
        Assets = assets;
        LastAssetId = lastAssetId;
    }

    /// <summary>The assets to answer for; fewer than were locked, even none, when another worker was quicker.</summary>
    public IReadOnlyList<ClaimedAsset> Assets { get; }

    /// <summary>Key to go on behind once this batch is stored.</summary>
    public string LastAssetId { get; }

    /// <summary>Stores the answers and lets the assets go, in one commit.</summary>
    /// <exception cref="InvalidOperationException">The server kept another number of rows than were sent.</exception>
    public async Task StoreAsync(IReadOnlyList<AssetRecommendationRow> rows, CancellationToken cancellationToken)
    {
        await using (var command = new NpgsqlCommand(ClaimSql.Store, _connection, _transaction))
        {
            Add(r => r.AssetId);
            Add(r => r.TagClassId);
            Add(r => r.AttachmentMethodId);
            Add(r => r.P10M);
            Add(r => r.P50M);
            Add(r => r.P90M);
            Add(r => r.NoneBecause);
            Add(r => r.LifetimeCostPresentValue);
            Add(r => r.LifetimeCostCurrency);
            Add(r => r.EngineVersion);
            Add(r => r.CatalogueVersion);
            Add(r => r.MaterialId);
            Add(r => r.MeasuredVersion);
            Add(r => r.InputKey);
            Add(r => r.RecordHash);
            Add(r => r.ComputedAt.ToUniversalTime());
            var kept = await command.ExecuteNonQueryAsync(cancellationToken);
            if (kept != rows.Count)
                throw new InvalidOperationException($"Recommendations: {rows.Count} rows were sent, the server kept {kept}.");

            void Add<T>(Func<AssetRecommendationRow, T> column) =>
                command.Parameters.Add(new NpgsqlParameter<T[]> { TypedValue = [.. rows.Select(column)] });
        }

        string[] ids = [.. rows.Select(r => r.AssetId)];
        await RunAsync(ClaimSql.Unmark, [ids], cancellationToken);
        if (_keepKeys)
            await RunAsync(ClaimSql.KeepKeys, [ids, [.. rows.Select(r => r.InputKey)]], cancellationToken);
        await _transaction.CommitAsync(cancellationToken);
    }

    private async Task RunAsync(string sql, string[][] columns, CancellationToken cancellationToken)
    {
        await using var command = new NpgsqlCommand(sql, _connection, _transaction);
        foreach (var column in columns)
            command.Parameters.Add(new NpgsqlParameter<string[]> { TypedValue = column });
        await command.ExecuteNonQueryAsync(cancellationToken);
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await _transaction.DisposeAsync();
        await _connection.DisposeAsync();
    }
}
