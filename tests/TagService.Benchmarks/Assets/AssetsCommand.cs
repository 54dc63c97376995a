using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using TagService.LocalDatabase;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Claims;
using TagService.Storage.Schema;

namespace TagService.Benchmarks.Assets;

/// <summary>
/// <c>assets</c>: the bulk writer beside a plain COPY of the same rows, in turns, medians of five; <c>assets idle</c>: what a look for work
/// costs the worker when there is none. On the database named by TAGSERVICE_BENCHMARK_DATABASE, or on a private one.
/// </summary>
internal static class AssetsCommand
{
    private const int Rounds = 5;

    /// <param name="count">Assets.</param>
    public static Task LoadAsync(int count) => WithDatabaseAsync(async services =>
    {
        var dataSource = services.GetRequiredService<NpgsqlDataSource>();
        var writer = services.GetRequiredService<AssetBulkWriter>();
        var (fleet, later) = (FleetRows.Make(count, changedEvery: 0), FleetRows.Make(count, changedEvery: 100));
        var times = new Dictionary<string, List<double>>();
        for (var round = 0; round <= Rounds; round++)
        {
            // The first round warms both sides up and does not count.
            foreach (var (name, work) in Works(dataSource, writer, fleet, later))
            {
                var seconds = await TimeAsync(work);
                if (round > 0)
                    (times.TryGetValue(name, out var list) ? list : times[name] = []).Add(seconds);
            }
        }

        var medians = times.ToDictionary(t => t.Key, t => t.Value.Order().ElementAt(Rounds / 2));
        foreach (var (name, list) in times)
            Console.WriteLine(FormattableString.Invariant($"{name}: median {medians[name]:0.00} s ({string.Join(", ", list.Select(s => s.ToString("0.00", CultureInfo.InvariantCulture)))})"));
        Console.WriteLine(FormattableString.Invariant(
            $"""
            {count} assets, medians of {Rounds}
              first load: {medians[Names.First] / medians[Names.CopySame]:0.00} times COPY into the same table, {medians[Names.First] / medians[Names.CopyBare]:0.00} times COPY into a table without indexes
              again with 1 % changed: {medians[Names.Second] / medians[Names.First]:0.000} of the first; unchanged: {medians[Names.Third] / medians[Names.First]:0.000} of the first
            """));
    });

    /// <param name="count">Assets, each with a stored answer.</param>
    public static Task IdleAsync(int count) => WithDatabaseAsync(async services =>
    {
        var dataSource = services.GetRequiredService<NpgsqlDataSource>();
        await RunAsync(dataSource, IdleRows.Fill(count));
        await RunAsync(dataSource, "VACUUM (ANALYZE) assets, asset_recommendations, recommendations_due");
        var claims = services.GetRequiredService<RecommendationClaims>();
        var seconds = new List<double>();
        for (var i = 0; i < 1000; i++)
            seconds.Add(await TimeAsync(() => claims.LookAsync(_ => true, default)));
        seconds.Sort();
        Console.WriteLine(FormattableString.Invariant(
            $"{count} assets, {IdleRows.Materials} materials: a look from the program p50 {seconds[500] * 1000:0.000} ms, p99 {seconds[990] * 1000:0.000} ms"));
        await using var command = dataSource.CreateCommand($"EXPLAIN (ANALYZE, BUFFERS, COSTS OFF) {ClaimSql.Look}");
        await using var reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
            Console.WriteLine(reader.GetString(0));
    });

    private static IEnumerable<(string Name, Func<Task> Work)> Works(NpgsqlDataSource dataSource, AssetBulkWriter writer, FleetRows fleet, FleetRows later)
    {
        yield return ("(a bare table)", () => RunAsync(dataSource, PlainCopy.MakeBare));
        yield return (Names.CopyBare, () => PlainCopy.RunAsync(dataSource, fleet));
        yield return ("(a table like assets)", () => RunAsync(dataSource, PlainCopy.MakeSame));
        yield return (Names.CopySame, () => PlainCopy.RunAsync(dataSource, fleet));
        yield return ("(empty)", () => RunAsync(dataSource, "TRUNCATE assets, asset_recommendations, changes, recommendations_due CASCADE; CHECKPOINT"));
        yield return (Names.First, () => ExpectAsync(writer, fleet, new(fleet.Count, 0, 0)));
        yield return ("(vacuum)", () => RunAsync(dataSource, "VACUUM ANALYZE assets"));
        yield return (Names.Second, () => ExpectAsync(writer, later, new(0, later.Changed, fleet.Count - later.Changed)));
        yield return (Names.Third, () => ExpectAsync(writer, later, new(0, 0, fleet.Count)));
    }

    private static async Task ExpectAsync(AssetBulkWriter writer, FleetRows rows, AssetWriteSummary expected)
    {
        var summary = await writer.CountAsync(rows.Assets, "benchmark", default);
        if (summary != expected)
            throw new InvalidOperationException($"Expected {expected}, got {summary}.");
    }

    internal static async Task<double> TimeAsync(Func<Task> work)
    {
        var started = Stopwatch.GetTimestamp();
        await work();
        return Stopwatch.GetElapsedTime(started).TotalSeconds;
    }

    internal static async Task RunAsync(NpgsqlDataSource dataSource, string sql)
    {
        await using var command = dataSource.CreateCommand(sql);
        command.CommandTimeout = 0;
        await command.ExecuteNonQueryAsync();
    }

    internal static async Task WithDatabaseAsync(Func<IServiceProvider, Task> measure, Action<IServiceCollection>? more = null)
    {
        var given = Environment.GetEnvironmentVariable("TAGSERVICE_BENCHMARK_DATABASE");
        // Not CreateTempSubdirectory: started as root, the private database runs under another account, which must get in.
        var folder = Path.Combine(Path.GetTempPath(), $"tagservice-assets-{Environment.ProcessId}");
        var local = given is null ? await PrivateDatabase.OpenAsync(new() { Folder = folder }, Console.WriteLine, default) : null;
        try
        {
            var collection = new ServiceCollection().AddTagServiceStorage(given ?? local!.ConnectionString);
            more?.Invoke(collection);
            await using var services = collection.BuildServiceProvider();
            await services.GetRequiredService<DatabaseMigrator>().MigrateAsync(default);
            await measure(services);
        }
        finally
        {
            if (local is not null)
            {
                await local.DisposeAsync();
                Directory.Delete(folder, recursive: true);
            }
        }
    }

    private static class Names
    {
        public const string CopyBare = "COPY into a table without indexes";
        public const string CopySame = "COPY into a table like assets";
        public const string First = "first load";
        public const string Second = "again, 1 % changed";
        public const string Third = "again, unchanged";
    }
}
