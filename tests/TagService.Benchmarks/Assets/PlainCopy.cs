using Npgsql;
using NpgsqlTypes;

namespace TagService.Benchmarks.Assets;

/// <summary>What it is compared with: one binary COPY of the same rows in one transaction, their JSON ready, and nothing else.</summary>
internal static class PlainCopy
{
    public const string MakeBare = "DROP TABLE IF EXISTS plain_assets; CREATE TABLE plain_assets (LIKE assets INCLUDING DEFAULTS); CHECKPOINT";
    public const string MakeSame = "DROP TABLE IF EXISTS plain_assets; CREATE TABLE plain_assets (LIKE assets INCLUDING ALL); CHECKPOINT";

    public static async Task RunAsync(NpgsqlDataSource dataSource, FleetRows fleet)
    {
        await using var connection = await dataSource.OpenConnectionAsync();
        // The bare table computes nothing: it must have no column that asks for it.
        await using (var fit = new NpgsqlCommand(
            """
            DO $$ BEGIN
              IF NOT EXISTS (SELECT FROM information_schema.columns WHERE table_name = 'plain_assets' AND is_generated = 'ALWAYS') THEN
                ALTER TABLE plain_assets DROP COLUMN record_hash, DROP COLUMN category;
              END IF;
            END $$
            """, connection))
            await fit.ExecuteNonQueryAsync();
        await using var copy = await connection.BeginBinaryImportAsync("COPY plain_assets (asset_id, record, location_name, source, updated_at) FROM STDIN (FORMAT BINARY)");
        var now = DateTimeOffset.UtcNow;
        for (var i = 0; i < fleet.Count; i++)
        {
            var (record, location) = fleet.Rows[i];
            await copy.StartRowAsync();
            await copy.WriteAsync(record.AssetId!, NpgsqlDbType.Text);
            await copy.WriteAsync(fleet.Json[i], NpgsqlDbType.Jsonb);
            await copy.WriteAsync(location!, NpgsqlDbType.Text);
            await copy.WriteAsync("benchmark", NpgsqlDbType.Text);
            await copy.WriteAsync(now, NpgsqlDbType.TimestampTz);
        }

        if (await copy.CompleteAsync() != (ulong)fleet.Count)
            throw new InvalidOperationException("COPY kept another number of rows than were sent.");
    }
}
