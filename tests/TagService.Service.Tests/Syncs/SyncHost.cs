using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Registers;
using TagService.Service.Tests.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Registers;
using TagService.Storage.Tables;
using TagService.Worker;
using TagService.Worker.Registers;

namespace TagService.Service.Tests.Syncs;

/// <summary>A migrated database, readers and jobs as a worker has them, and short forms of sources and runs.</summary>
internal sealed class SyncHost(StorageServices storage, RegisterTestHost readers, TimeProvider clock) : IAsyncDisposable
{
    public static RegisterMapping Mapping { get; } = new()
    {
        Rows =
        [
            new() { Target = "/assetId", Source = "id" },
            new() { Target = "/description", Source = "name" },
            new() { Target = "/surface/thicknessMm", Source = "/wall/mm" },
            new() { Target = "/retired", Source = "retired" },
            new() { Target = "/location", Source = "place" },
            new() { Target = "/tag", Source = "tag" },
        ],
    };

    public StorageServices Storage => storage;

    public RegisterReaders Readers => readers.Readers;

    public static async Task<SyncHost> StartAsync(TestDatabase server, string name, TimeProvider? clock = null, params (string Key, string Value)[] settings) =>
        new(await StorageServices.CreateMigratedAsync(server, name), new RegisterTestHost(settings), clock ?? TimeProvider.System);

    /// <summary>A source of numbered pages of 50 rows, ended by an empty one.</summary>
    public static RegisterSource Pages(FaultyRegister register) => new()
    {
        Http = new()
        {
            Address = register.Address, RowsPointer = "/items", KeyPointer = "/id", Paging = HttpPaging.PageNumber, PageParameter = "page", PageSize = 50, SizeParameter = "size", TotalPointer = "/total",
        },
        Mapping = Mapping,
    };

    public static RegisterSource Csv(string pattern = "*.csv") => new()
    {
        Csv = new CsvRegisterOptions { Folder = "drop", Pattern = pattern, KeyColumn = "id" },
        Mapping = Mapping with { Rows = [.. Mapping.Rows.Where(r => r.Source != "/wall/mm"), new() { Target = "/surface/thicknessMm", Source = "wall" }] },
    };

    public Task SaveAsync(string name, RegisterSource source, int? everyMinutes = null) => storage.WithContextAsync(async c =>
    {
        await c.RegisterSources.Where(s => s.Name == name).ExecuteDeleteAsync();
        c.Add(new RegisterSourceRow
        {
            Name = name, Settings = RegisterSourceJson.Write(source), SettingsHash = RegisterSourceJson.HashOf(source), IsEnabled = true, EveryMinutes = everyMinutes,
            IsFromConfiguration = false, UpdatedAt = DateTimeOffset.UtcNow,
        });
        return await c.SaveChangesAsync();
    });

    public Task<long> RequestAsync(string name, bool full = false, bool acceptMissing = false) => storage.WithContextAsync(async c =>
    {
        var row = new RegisterSyncRow
        {
            SourceName = name, State = RegisterSyncState.Waiting, RequestedBy = "test", RequestedAt = clock.GetUtcNow(), IsFullPass = full, AcceptsMissing = acceptMissing,
        };
        c.Add(row);
        await c.SaveChangesAsync();
        return row.Id;
    });

    /// <summary>Asks for a run and lets a worker take it.</summary>
    public async Task<RegisterSyncRow> RunAsync(string name, bool full = false, bool acceptMissing = false)
    {
        var id = await RequestAsync(name, full, acceptMissing);
        await Job().RunOnceAsync(default);
        var run = await FindAsync(id);
        Assert.True(run.State is not RegisterSyncState.Failed, run.ReasonDetail);
        return run;
    }

    public Task<RegisterSyncRow> FindAsync(long id) => storage.WithContextAsync(c => c.RegisterSyncs.AsNoTracking().SingleAsync(s => s.Id == id));

    public static RegisterSyncNotes NotesOf(RegisterSyncRow run) => System.Text.Json.JsonSerializer.Deserialize<RegisterSyncNotes>(run.Notes!, TagService.Storage.AssetRecordJson.Options)!;

    public Task<List<RejectedRowRow>> RejectedAsync(long id) => storage.WithContextAsync(c => c.RejectedRows.AsNoTracking().Where(r => r.SyncId == id).OrderBy(r => r.Number).ToListAsync());

    public Task<AssetRow> AssetAsync(string id) => storage.WithContextAsync(c => c.Assets.AsNoTracking().SingleAsync(a => a.AssetId == id));

    /// <summary>Ids in service with their description, in order.</summary>
    public Task<List<string>> InServiceAsync() => storage.WithContextAsync(async c =>
        (await c.Assets.AsNoTracking().Where(a => a.RetiredAt == null).ToListAsync()).Select(a => $"{a.AssetId} {a.Record.Description}").Order(StringComparer.Ordinal).ToList());

    public RegisterSyncs Syncs(TimeSpan? lease = null) =>
        new(storage.DataSource, storage.Get<IServiceScopeFactory>(), clock) { Lease = lease ?? TimeSpan.FromSeconds(60) };

    public RegisterSyncWriter Writer(RegisterSyncs syncs) => new(storage.DataSource, storage.Get<AssetBulkWriter>(), syncs, clock);

    /// <summary>A worker.</summary>
    public SyncRegistersJob Job(TimeSpan? lease = null)
    {
        var syncs = Syncs(lease);
        return new(syncs, Writer(syncs), readers.Readers, new WorkerOptions(), clock, NullLogger<SyncRegistersJob>.Instance);
    }

    public async ValueTask DisposeAsync()
    {
        await storage.DisposeAsync();
        readers.Dispose();
    }
}
