using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TagService.Benchmarks.Assets;
using TagService.LocalDatabase;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Schema;

namespace TagService.Benchmarks.Attachments;

/// <summary>
/// <c>attachments</c>: a batch of existing pairs through the service, as NDJSON and as CSV, beside a plain COPY of the same rows on the same
/// server, in turns, medians of three; then the worklist over as many assets. The service runs in a process of its own.
/// </summary>
internal static class AttachmentsCommand
{
    private const int Rounds = 3;
    private const string Empty = "TRUNCATE attachments, tags, changes, range_measurements, range_calibrations, range_calibrations_due; CHECKPOINT";

    /// <param name="servicePath">The service's assembly.</param>
    /// <param name="count">Assets.</param>
    /// <param name="lines">Lines of a batch: pairs of the first assets.</param>
    public static async Task RunAsync(string servicePath, int count, int lines)
    {
        // Not CreateTempSubdirectory: started as root, the private database runs under another account, which must get in.
        var folder = Path.Combine(Path.GetTempPath(), $"tagservice-attachments-{Environment.ProcessId}");
        await using var local = await PrivateDatabase.OpenAsync(new() { Folder = folder }, Console.WriteLine, default);
        try
        {
            await using var services = new ServiceCollection().AddTagServiceStorage(local.ConnectionString).BuildServiceProvider();
            await services.GetRequiredService<DatabaseMigrator>().MigrateAsync(default);
            var fleet = FleetRows.Make(count, changedEvery: 0);
            await services.GetRequiredService<AssetBulkWriter>().CountAsync(fleet.Assets, "benchmark", default);
            var database = services.GetRequiredService<NpgsqlDataSource>();
            await RunSqlAsync(database, "VACUUM ANALYZE assets");
            using var service = await OwnService.StartAsync(servicePath, local.ConnectionString);
            var pairs = new PairLines([.. fleet.Rows.Take(lines).Select(r => r.Record.AssetId!)]);
            await BatchesAsync(database, service, pairs);
            await WorklistAsync(database, service, count, fleet.Rows[0].LocationName!);
        }
        finally
        {
            await local.DisposeAsync();
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task BatchesAsync(NpgsqlDataSource database, OwnService service, PairLines pairs)
    {
        var times = new Dictionary<string, List<double>>();
        for (var round = 0; round < Rounds; round++)
        {
            await MeasureAsync("COPY into a table without indexes", async () => await pairs.CopyAsync(database), "DROP TABLE IF EXISTS plain; CREATE TABLE plain (LIKE attachments); CHECKPOINT");
            await MeasureAsync("COPY into a table like attachments", async () => await pairs.CopyAsync(database), "DROP TABLE IF EXISTS plain; CREATE TABLE plain (LIKE attachments INCLUDING ALL); CHECKPOINT");
            await MeasureAsync("NDJSON", () => service.BatchAsync(pairs.Ndjson(withCheck: false), "application/x-ndjson", "started", pairs.Count), Empty);
            await MeasureAsync("the same again", () => service.BatchAsync(pairs.Ndjson(withCheck: false), "application/x-ndjson", "known", pairs.Count), "CHECKPOINT");
            await MeasureAsync("NDJSON with a check each", () => service.BatchAsync(pairs.Ndjson(withCheck: true), "application/x-ndjson", "started", pairs.Count), Empty);
            await MeasureAsync("CSV", () => service.BatchAsync(pairs.Csv(), "text/csv", "started", pairs.Count), Empty);
        }

        foreach (var (name, list) in times)
        {
            var median = list.Order().ElementAt(Rounds / 2);
            Console.WriteLine(FormattableString.Invariant(
                $"{name}: median {median:0.00} s, {pairs.Count / median:0} rows/s ({string.Join(", ", list.Select(s => s.ToString("0.00", CultureInfo.InvariantCulture)))})"));
        }

        Console.WriteLine($"memory of the service at each fifth of the batches, MB: {string.Join("; ", service.Memory)}");

        async Task MeasureAsync(string name, Func<Task> work, string before)
        {
            await RunSqlAsync(database, before);
            var started = Stopwatch.GetTimestamp();
            await work();
            (times.TryGetValue(name, out var list) ? list : times[name] = []).Add(Stopwatch.GetElapsedTime(started).TotalSeconds);
        }
    }

    // Both extremes: nothing to pass over, and few without a tag among many that have one.
    private static async Task WorklistAsync(NpgsqlDataSource database, OwnService service, int count, string place)
    {
        var location = Uri.EscapeDataString(place);
        await RunSqlAsync(database, Empty);
        await ShowAsync("none has a tag");
        await RunSqlAsync(
            database,
            $"""
            INSERT INTO tags (identity, first_recorded_at) SELECT asset_id, now() FROM assets WHERE hashtext(asset_id) % {Math.Max(2, count / 200)} <> 0;{" "}
            INSERT INTO attachments (tag_id, id, asset_id, is_void, taken_over, recorded_at) SELECT id, gen_random_uuid(), identity, false, true, now() FROM tags
            """);
        await ShowAsync("some two hundred of them without one");

        async Task ShowAsync(string what)
        {
            await RunSqlAsync(database, "VACUUM ANALYZE attachments, assets");
            var (first, there) = (await service.LatencyAsync("/v1/fitting-worklist"), await service.LatencyAsync($"/v1/fitting-worklist?location={location}"));
            Console.WriteLine(FormattableString.Invariant($"worklist over {count} assets, {what}: first page p50 {first:0} ms, of one place p50 {there:0} ms"));
        }
    }

    private static async Task RunSqlAsync(NpgsqlDataSource database, string sql)
    {
        // One at a time: VACUUM and CHECKPOINT stand in no transaction.
        foreach (var statement in sql.Split("; "))
        {
            await using var command = database.CreateCommand(statement);
            command.CommandTimeout = 0;
            await command.ExecuteNonQueryAsync();
        }
    }
}
