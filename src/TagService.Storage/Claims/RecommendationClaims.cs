using Npgsql;
using TagService.Domain.Recommendations;

namespace TagService.Storage.Claims;

/// <summary>Hands out assets whose recommendation is missing or stale, each to one worker at a time.</summary>
public sealed class RecommendationClaims(NpgsqlDataSource dataSource)
{
    /// <summary>Looks what there is to do; well under a millisecond of the database's time, however many assets there are.</summary>
    /// <param name="isCurrent">Would an answer given now rest on the same?</param>
    /// <param name="cancellationToken">Stops waiting.</param>
    /// <returns>What to claim; empty when every answer is good. Another worker may be at it.</returns>
    public async Task<IReadOnlyList<DueAssets>> LookAsync(Func<AnswerBasis, bool> isCurrent, CancellationToken cancellationToken)
    {
        var due = new List<DueAssets>();
        await using var command = dataSource.CreateCommand(ClaimSql.Look);
        await using var reader = await command.ExecuteReaderAsync(cancellationToken);
        while (await reader.ReadAsync(cancellationToken))
        {
            var basis = new AnswerBasis(reader.GetString(0), reader.GetString(1), reader.GetString(2), reader.GetString(3));
            // No catalogue has an empty version.
            if (basis is { EngineVersion: "marked", CatalogueVersion: "" })
                due.Add(new DueAssets.Marked());
            else if (basis is { EngineVersion: "without-key", CatalogueVersion: "" })
                due.Add(new DueAssets.WithoutInputKey());
            else if (!isCurrent(basis))
                due.Add(new DueAssets.AnsweredOn(basis));
        }

        return due;
    }

    /// <summary>
    /// Claims the next batch behind a key. The claim is a transaction: storing ends it, disposing it or losing the process
    /// gives the assets back untouched.
    /// </summary>
    /// <param name="due">Which of them.</param>
    /// <param name="afterAssetId">Key behind which to look; empty for the beginning.</param>
    /// <param name="batchSize">Most assets to claim.</param>
    /// <param name="cancellationToken">Stops waiting.</param>
    /// <returns>Null when nothing of that kind is left behind that key for this worker.</returns>
    public async Task<RecommendationClaim?> ClaimAsync(DueAssets due, string afterAssetId, int batchSize, CancellationToken cancellationToken)
    {
        var connection = await dataSource.OpenConnectionAsync(cancellationToken);
        try
        {
            var transaction = await connection.BeginTransactionAsync(cancellationToken);
            var (lockSql, readSql, basis) = Statements(due);
            var keys = new List<string>();
            await using (var command = new NpgsqlCommand(lockSql, connection))
            {
                command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = afterAssetId });
                command.Parameters.Add(new NpgsqlParameter<int> { TypedValue = batchSize });
                Add(command, basis);
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
            await using (var command = new NpgsqlCommand(readSql, connection))
            {
                command.Parameters.Add(new NpgsqlParameter<string[]> { TypedValue = [.. keys] });
                Add(command, basis);
                await using var reader = await command.ExecuteReaderAsync(cancellationToken);
                while (await reader.ReadAsync(cancellationToken))
                    assets.Add(Asset(reader));
            }

            return new(connection, transaction, assets, keys[^1], keepKeys: due is DueAssets.WithoutInputKey);
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    private static (string Lock, string Read, string[] Basis) Statements(DueAssets due) => due switch
    {
        DueAssets.Marked => (ClaimSql.LockMarked, ClaimSql.ReadMarked, []),
        DueAssets.WithoutInputKey => (ClaimSql.LockWithoutKey, ClaimSql.ReadWithoutKey, []),
        DueAssets.AnsweredOn { Basis: var b } =>
            (ClaimSql.LockAnswered, ClaimSql.ReadAnswered, [b.EngineVersion, b.CatalogueVersion, b.MaterialId, b.MeasuredVersion]),
        _ => throw new ArgumentOutOfRangeException(nameof(due), due, "Not a known kind."),
    };

    private static ClaimedAsset Asset(NpgsqlDataReader reader)
    {
        var record = AssetRecordJson.Read(reader.GetString(1));
        var key = reader.GetString(3);
        return new(reader.GetString(0), record, reader.GetString(2), key.Length > 0 ? key : EngineInput.KeyOf(record));
    }

    private static void Add(NpgsqlCommand command, string[] basis)
    {
        foreach (var part in basis)
            command.Parameters.Add(new NpgsqlParameter<string> { TypedValue = part });
    }
}
