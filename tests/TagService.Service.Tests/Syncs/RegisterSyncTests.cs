using TagService.Service.Tests.Database;
using TagService.Service.Tests.Registers;
using TagService.Storage.Tables;
using static TagService.Service.Tests.Registers.FaultyRegister;

namespace TagService.Service.Tests.Syncs;

/// <summary>Runs over a register that behaves. Its rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RegisterSyncTests(TestDatabase server)
{
    private List<string> _rows = [.. Enumerable.Range(0, 120).Select(Row)];

    [Fact]
    public async Task Run_First_WritesAllAndMarksThem_AgainChangesNothing()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await SyncHost.StartAsync(server, "sync_first");
        await host.SaveAsync("plant", SyncHost.Pages(register));

        var first = await host.RunAsync("plant");
        Assert.Equal((RegisterSyncState.Done, 120L, 120L, 0L, 0L, 0L), (first.State, first.Rows, first.Created, first.Changed, first.Unchanged, first.Refused));
        Assert.True(SyncHost.NotesOf(first).IsCompleteList);
        Assert.Equal(120, await host.Storage.CountAsync("recommendations_due"));
        var asset = await host.AssetAsync("A-7");
        Assert.Equal(("pump 7", 7.5, "plant"), (asset.Record.Description, asset.Record.Surface!.ThicknessMm!.Value, asset.Source));
        Assert.Equal(0, await host.Storage.CountAsync("register_sync_assets"));

        var before = await host.Storage.ScalarAsync("SELECT string_agg(xmin::text, ',' ORDER BY asset_id) FROM assets");
        foreach (var full in (bool[])[false, true])
        {
            var again = await host.RunAsync("plant", full);
            Assert.Equal((RegisterSyncState.Done, 0L, 0L, 120L), (again.State, again.Created, again.Changed, again.Unchanged));
            Assert.Equal(before, await host.Storage.ScalarAsync("SELECT string_agg(xmin::text, ',' ORDER BY asset_id) FROM assets"));
        }
    }

    [Fact]
    public async Task Run_ChangedNewAndUnreadableRows_AreToldApartAndKept()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await SyncHost.StartAsync(server, "sync_changed");
        await host.SaveAsync("plant", SyncHost.Pages(register));
        await host.RunAsync("plant");

        _rows[3] = """{"id":"A-3","name":"pump 3, renewed","retired":false,"costCentre":"4711","place":"Hall 2"}""";
        _rows[4] = """{"id":"A-4","name":"pump 4","wall":{"mm":"thick"},"retired":false}""";
        _rows[5] = """{"id":"A-5","name":"pump 5","retired":"perhaps"}""";
        _rows.Add("""{"name":"no key"}""");
        _rows.Add("17");
        _rows.Add("""{"id":"A-200","name":"new"}""");
        _rows.Add("""{"id":"A-200","name":"the same once more"}""");
        var run = await host.RunAsync("plant");

        Assert.Equal((1L, 1L, 117L, 5L), (run.Created, run.Changed, run.Unchanged, run.Refused));
        var changed = await host.AssetAsync("A-3");
        Assert.Equal(("Hall 2", "4711", 3.5), (changed.LocationName, changed.Record.Attributes["costCentre"], changed.Record.Surface!.ThicknessMm!.Value));
        Assert.Equal("pump 5", (await host.AssetAsync("A-5")).Record.Description);
        var rejected = await host.RejectedAsync(run.Id);
        Assert.Equal([1, 2, 3, 4, 5], rejected.Select(r => r.Number));
        Assert.Equal([4, 5, 120, 121, 123], rejected.Select(r => _rows.IndexOf(r.OriginalText)).Order());
        Assert.All(rejected, r => Assert.Contains("item", r.Place, StringComparison.Ordinal));
        Assert.Contains("first row counts", Assert.Single(rejected, r => r.AssetId == "A-200").Reason, StringComparison.Ordinal);
        Assert.Contains("\"thick\"", Assert.Single(rejected, r => r.AssetId == "A-4").Problems, StringComparison.Ordinal);
        var notes = SyncHost.NotesOf(run);
        Assert.Contains(notes.Values, v => v is { Kind: "refuses", Field: "/retired", Count: 1 });
        Assert.False(notes.IsCompleteList); // a row without a key may be any asset

        // What was refused is looked at again when the mapping or the row is mended; what was taken is not.
        _rows[4] = Row(4);
        Assert.Equal((0L, 120L), ((await host.RunAsync("plant")) is var again ? again.Changed : -1, again.Unchanged));
    }

    [Fact]
    public async Task Run_OtherMapping_LooksAtEveryRowAnew()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await SyncHost.StartAsync(server, "sync_mapping");
        await host.SaveAsync("plant", SyncHost.Pages(register));
        await host.RunAsync("plant");
        var source = SyncHost.Pages(register);
        await host.SaveAsync("plant", source with { Mapping = source.Mapping with { Rows = [.. source.Mapping.Rows, new() { Target = "/category", Default = "centrifugal pump" }] } });
        Assert.Equal((120L, 0L), ((await host.RunAsync("plant")) is var run ? run.Changed : -1, run.Unchanged));
        Assert.Equal("centrifugal pump", (await host.AssetAsync("A-0")).Record.Category);
    }

    [Fact]
    public async Task Run_ListOfOtherSourceAndPush_KeepWhatTheyWroteLast()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await SyncHost.StartAsync(server, "sync_two");
        await host.SaveAsync("plant", SyncHost.Pages(register));
        await host.RunAsync("plant");
        await host.Storage.CopyAsync([new() { AssetId = "A-1", Description = "pushed later" }]);
        Assert.Equal(120, (await host.RunAsync("plant")).Unchanged);
        Assert.Equal("pushed later", (await host.AssetAsync("A-1")).Record.Description);
        // A full pass says everything again.
        Assert.Equal(1, (await host.RunAsync("plant", full: true)).Changed);
        Assert.Equal(("pump 1", "plant"), ((await host.AssetAsync("A-1")) is var asset ? asset.Record.Description : "", asset.Source));
    }

    [Fact]
    public async Task Schedule_Due_AsksOnceAndNotBeforeTheNextTime()
    {
        await using var register = await StartRegisterAsync();
        var clock = new Microsoft.Extensions.Time.Testing.FakeTimeProvider(new(2026, 5, 4, 6, 0, 0, TimeSpan.Zero));
        await using var host = await SyncHost.StartAsync(server, "sync_schedule", clock);
        await host.SaveAsync("plant", SyncHost.Pages(register), everyMinutes: 30);
        await host.SaveAsync("by-hand", SyncHost.Pages(register));
        Assert.Equal(1, await host.Job().RunOnceAsync(default));
        Assert.Equal(0, await host.Job().RunOnceAsync(default));
        clock.Advance(TimeSpan.FromMinutes(29));
        Assert.Equal(0, await host.Job().RunOnceAsync(default));
        clock.Advance(TimeSpan.FromMinutes(1));
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => host.Syncs().RequestDueAsync(default)));
        Assert.Equal(1, await host.Job().RunOnceAsync(default));
        Assert.Equal(2, await host.Storage.CountAsync("register_syncs WHERE source_name = 'plant' AND requested_by = 'schedule' AND state = 'done'"));
    }

    private Task<FaultyRegister> StartRegisterAsync() => StartAsync((context, _) =>
    {
        var page = Number(context, "page", 1);
        return WriteAsync(context, Page(_rows.Skip((page - 1) * 50).Take(50), total: _rows.Count));
    });
}
