using Npgsql;
using NpgsqlTypes;

namespace TagService.Storage.Bulk;

/// <summary>Binary COPY of new assets.</summary>
public static class AssetCopy
{
    /// <summary>The statement; the computed columns are left to the database.</summary>
    public const string Sql = "COPY assets (asset_id, record, location_name, updated_at) FROM STDIN (FORMAT BINARY)";

    /// <summary>
    /// Writes new assets within the caller's transaction, which keeps nothing when this throws. Every value names its database type: without it Npgsql
    /// may send another type's bytes (its documentation, "COPY"). An asset that exists already fails the whole batch.
    /// </summary>
    /// <returns>Rows written, equal to the number of assets.</returns>
    /// <exception cref="InvalidOperationException">The server kept another number of rows than were sent, or an asset has no id.</exception>
    public static async Task<int> WriteAsync(
        NpgsqlTransaction transaction, IEnumerable<AssetToLoad> assets, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var connection = transaction.Connection ?? throw new InvalidOperationException("The transaction has ended.");
        var sent = 0;
        ulong kept;
        await using (var copy = await connection.BeginBinaryImportAsync(Sql, cancellationToken))
        {
            foreach (var asset in assets)
            {
                var assetId = asset.Record.AssetId ?? throw new InvalidOperationException($"Asset {sent} has no asset id.");
                await copy.StartRowAsync(cancellationToken);
                await copy.WriteAsync(assetId, NpgsqlDbType.Text, cancellationToken);
                await copy.WriteAsync(AssetRecordJson.Write(asset.Record), NpgsqlDbType.Jsonb, cancellationToken);
                if (asset.LocationName is null)
                    await copy.WriteNullAsync(cancellationToken);
                else
                    await copy.WriteAsync(asset.LocationName, NpgsqlDbType.Text, cancellationToken);
                await copy.WriteAsync(now.ToUniversalTime(), NpgsqlDbType.TimestampTz, cancellationToken);
                sent++;
            }

            kept = await copy.CompleteAsync(cancellationToken);
        }

        // A COPY that is not completed, or a trigger that drops rows, says nothing: count.
        return kept == (ulong)sent
            ? sent
            : throw new InvalidOperationException($"COPY of assets: {sent} rows were sent, the server kept {kept}.");
    }
}
