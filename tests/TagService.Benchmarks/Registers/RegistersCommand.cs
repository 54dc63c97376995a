using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;
using TagService.Benchmarks.Assets;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Registers;
using TagService.Storage.Tables;
using TagService.Worker;
using TagService.Worker.Registers;

namespace TagService.Benchmarks.Registers;

/// <summary>
/// <c>registers</c>: runs over a register of 200,000 assets, from the source to the commit of its last page: the first, and the next after 1 %
/// have changed, beside a plain COPY of the rows that come out of it into a table with the same indexes. In turns, medians of five.
/// </summary>
internal static class RegistersCommand
{
    private const int Rounds = 5;

    public static async Task RunAsync(int count)
    {
        var folder = Directory.CreateTempSubdirectory("tagservice-registers-").FullName;
        var configuration = new ConfigurationBuilder().AddInMemoryCollection(new Dictionary<string, string?>
        {
            ["Registers:Http:AllowedHttpHosts:0"] = "127.0.0.1",
            ["Registers:Http:AllowedNetworks:0"] = "127.0.0.1/32",
            ["Registers:Files:Folders:drop"] = folder,
            ["Registers:Files:SettleTime"] = "00:00:00",
        }).Build();
        try
        {
            await using var fixture = await RegisterFixture.StartAsync(count, folder);
            await AssetsCommand.WithDatabaseAsync(services => MeasureAsync(services, fixture, count), s => s.AddRegisterReading(configuration));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task MeasureAsync(IServiceProvider services, RegisterFixture fixture, int count)
    {
        var dataSource = services.GetRequiredService<NpgsqlDataSource>();
        var job = new SyncRegistersJob(
            services.GetRequiredService<RegisterSyncs>(), services.GetRequiredService<RegisterSyncWriter>(), services.GetRequiredService<RegisterReaders>(), new WorkerOptions(),
            TimeProvider.System, NullLogger<SyncRegistersJob>.Instance);
        foreach (var (name, source) in new[] { ("csv", RegisterFixture.Csv()), ("http", fixture.Http()) })
        {
            var (copies, firsts, seconds, reads) = (new List<double>(), new List<double>(), new List<double>(), new List<double>());
            FleetRows? plain = null;
            for (var round = 0; round <= Rounds; round++)
            {
                await AssetsCommand.RunAsync(
                    dataSource,
                    "TRUNCATE assets, asset_recommendations, changes, recommendations_due, register_sources, register_syncs, rejected_rows, register_rows, register_sync_assets CASCADE; CHECKPOINT");
                await SaveAsync(services, name, source);
                fixture.Set(0);
                var read = await AssetsCommand.TimeAsync(() => ReadAsync(services.GetRequiredService<RegisterReaders>().Open(source), count));
                var first = await AssetsCommand.TimeAsync(() => RunAsync(services, job, name, new(count, 0, 0)));
                await AssetsCommand.RunAsync(dataSource, "VACUUM (ANALYZE) assets, register_rows");
                await AssetsCommand.RunAsync(dataSource, "CHECKPOINT");
                plain ??= await ReadBackAsync(dataSource);
                fixture.Set(1);
                var second = await AssetsCommand.TimeAsync(() => RunAsync(services, job, name, new(0, fixture.Changed, count - fixture.Changed)));
                await AssetsCommand.RunAsync(dataSource, PlainCopy.MakeSame);
                var copy = await AssetsCommand.TimeAsync(() => PlainCopy.RunAsync(dataSource, plain));
                // The first round warms up and does not count.
                if (round == 0)
                    continue;
                reads.Add(read);
                firsts.Add(first);
                seconds.Add(second);
                copies.Add(copy);
            }

            var (c, f, s) = (Median(copies), Median(firsts), Median(seconds));
            Console.WriteLine(FormattableString.Invariant(
                $"{name}, {count} assets, medians of {Rounds}: COPY {c:0.00} s; first run {f:0.00} s = {f / c:0.00} times COPY; run with 1 % changed {s:0.00} s = {s / f:0.000} of the first; reading alone {Median(reads):0.00} s"));
        }
    }

    private static async Task ReadAsync(IRegisterReader reader, int expected)
    {
        var (rows, hash) = (0, new RowHash("benchmark"));
        await foreach (var page in reader.ReadAsync(null))
        {
            foreach (var row in page.Rows)
                rows += hash.Of(row.Row).Length / RowHash.Bytes;
        }

        if (rows != expected)
            throw new InvalidOperationException($"{rows} rows instead of {expected}.");
    }

    private static double Median(List<double> times) => times.Order().ElementAt(times.Count / 2);

    private static async Task SaveAsync(IServiceProvider services, string name, RegisterSource source)
    {
        await using var scope = services.CreateAsyncScope();
        var database = scope.ServiceProvider.GetRequiredService<TagServiceDbContext>();
        database.Add(new RegisterSourceRow
        {
            Name = name, Settings = RegisterSourceJson.Write(source), SettingsHash = RegisterSourceJson.HashOf(source), IsEnabled = true, IsFromConfiguration = false, UpdatedAt = DateTimeOffset.UtcNow,
        });
        await database.SaveChangesAsync();
    }

    private static async Task RunAsync(IServiceProvider services, SyncRegistersJob job, string name, AssetWriteSummary expected)
    {
        await using var scope = services.CreateAsyncScope();
        var database = scope.ServiceProvider.GetRequiredService<TagServiceDbContext>();
        var run = new RegisterSyncRow
        {
            SourceName = name, State = RegisterSyncState.Waiting, RequestedBy = "benchmark", RequestedAt = DateTimeOffset.UtcNow, IsFullPass = false, AcceptsMissing = false,
        };
        database.Add(run);
        await database.SaveChangesAsync();
        await job.RunOnceAsync(default);
        await database.Entry(run).ReloadAsync();
        if (run.State != RegisterSyncState.Done || new AssetWriteSummary(run.Created, run.Changed, run.Unchanged) != expected)
            throw new InvalidOperationException($"{run.State} {run.ReasonDetail}: expected {expected}, got {run.Created}, {run.Changed}, {run.Unchanged}.");
    }

    /// <summary>The rows that the run made, so that COPY writes the same.</summary>
    private static async Task<FleetRows> ReadBackAsync(NpgsqlDataSource dataSource)
    {
        var rows = new List<AssetToLoad>();
        await using var command = dataSource.CreateCommand("SELECT record::text, location_name FROM assets ORDER BY asset_id");
        await using var reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
            rows.Add(new(AssetRecordJson.Read(reader.GetString(0)), reader.GetString(1)));
        return FleetRows.Of([.. rows]);
    }
}
