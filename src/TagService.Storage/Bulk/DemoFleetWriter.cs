using Npgsql;

namespace TagService.Storage.Bulk;

/// <summary>Loads an invented fleet into a database without assets, all or nothing.</summary>
public sealed class DemoFleetWriter(NpgsqlDataSource dataSource, AssetBulkWriter assetWriter, TimeProvider clock)
{
    // Keeps every other writer of assets out until the commit, lets readers read.
    private const string Lock = "LOCK TABLE assets IN SHARE ROW EXCLUSIVE MODE";

    private const string InsertMark =
        """
        INSERT INTO demo_fleets (name, seed, version, asset_count, loaded_at) VALUES ($1, $2, $3, $4, $5)
        ON CONFLICT (name) DO UPDATE
        SET seed = excluded.seed, version = excluded.version, asset_count = excluded.asset_count, loaded_at = excluded.loaded_at
        """;

    /// <summary>Writes the assets and the mark in one transaction.</summary>
    /// <returns>False when the database has assets already: nothing was written.</returns>
    public async Task<bool> LoadAsync(
        string name, int seed, int version, IReadOnlyList<AssetToLoad> assets, CancellationToken cancellationToken)
    {
        await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
        await using (var take = new NpgsqlCommand(Lock, connection))
            await take.ExecuteNonQueryAsync(cancellationToken);
        await using (var look = new NpgsqlCommand("SELECT EXISTS (SELECT FROM assets)", connection))
            if (await look.ExecuteScalarAsync(cancellationToken) is true)
                return false;

        var now = clock.GetUtcNow();
        await assetWriter.WriteAsync(transaction, assets, AssetSources.Demo, cancellationToken);
        await using (var mark = new NpgsqlCommand(InsertMark, connection))
        {
            mark.Parameters.Add(new NpgsqlParameter<string> { TypedValue = name });
            mark.Parameters.Add(new NpgsqlParameter<int> { TypedValue = seed });
            mark.Parameters.Add(new NpgsqlParameter<int> { TypedValue = version });
            mark.Parameters.Add(new NpgsqlParameter<int> { TypedValue = assets.Count });
            mark.Parameters.Add(new NpgsqlParameter<DateTimeOffset> { TypedValue = now });
            await mark.ExecuteNonQueryAsync(cancellationToken);
        }

        await transaction.CommitAsync(cancellationToken);
        return true;
    }
}
