using Npgsql;

namespace TagService.Storage.Claims;

/// <summary>Hands out assets whose recommendation is missing or stale, each to one worker at a time.</summary>
public sealed class RecommendationClaims(NpgsqlDataSource dataSource)
{
    /// <summary>
    /// Claims the next batch behind a key. The claim is a transaction: storing ends it, disposing it or losing the process
    /// gives the assets back untouched.
    /// </summary>
    /// <param name="afterAssetId">Key behind which to look; empty for the beginning.</param>
    /// <param name="batchSize">Most assets to claim.</param>
    /// <param name="engineVersion">Version of the engine that will answer.</param>
    /// <param name="catalogueVersion">Version of the catalogue it will choose from.</param>
    /// <param name="cancellationToken">Stops waiting.</param>
    /// <returns>Null when nothing is left behind that key for this worker.</returns>
    public async Task<RecommendationClaim?> ClaimAsync(
        string afterAssetId, int batchSize, string engineVersion, string catalogueVersion, CancellationToken cancellationToken)
    {
        var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        try
        {
            var transaction = await connection.BeginTransactionAsync(cancellationToken);
            var keys = new List<string>();
            await using (var command = Versioned(ClaimSql.Lock))
            {
                command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = afterAssetId });
                command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = batchSize });
                await using var reader = await command.ExecuteReaderAsync(cancellationToken);
                while (await reader.ReadAsync(cancellationToken))
                    keys.Add(reader.GetString(0));
            }

            if (keys.Count == 0)
            {
                await connection.DisposeAsync();
                return null;
            }

            var assets = new List<ClaimedAsset>(keys.Count);
            await using (var command = Versioned(ClaimSql.Read))
            {
                command.Parameters.Add(new NpgsqlParameter<string[]> { TypedValue = [.. keys] });
                await using var reader = await command.ExecuteReaderAsync(cancellationToken);
                while (await reader.ReadAsync(cancellationToken))
                    assets.Add(new(reader.GetString(0), AssetRecordJson.Read(reader.GetString(1)), reader.GetString(2)));
            }

            return new(connection, transaction, assets, keys[^1]);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }

        NpgsqlCommand Versioned(string sql) => new(sql, connection)
        {
            Parameters =
            {
                new NpgsqlParameter<string> { TypedValue = engineVersion },
                new NpgsqlParameter<string> { TypedValue = catalogueVersion },
            },
        };
    }
}
