using TagService.Service.Tests.Database;
using TagService.Service.Tests.Registers;
using TagService.Storage.Tables;
using static TagService.Service.Tests.Registers.FaultyRegister;

namespace TagService.Service.Tests.Syncs;

/// <summary>Assets that a register lists no more: gone, or only not delivered. Rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class MissingAssetsTests(TestDatabase server)
{
    private List<string> _rows = [.. Enumerable.Range(0, 300).Select(Row)];
    private int? _announced;

    [Fact]
    public async Task Run_SomeGone_AreRetiredWithReasonAndComeBack()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await LoadedAsync(register, "missing_some");
        var kept = _rows;
        _rows = [.. _rows.Skip(12)];
        var run = await host.RunAsync("plant");
        Assert.Equal((RegisterSyncState.Done, 12L, 12L), (run.State, run.Missing!.Value, run.Retired));
        Assert.Equal(288, (await host.InServiceAsync()).Count);
        Assert.Contains("plant", (await host.AssetAsync("A-3")).RetiredReason, StringComparison.Ordinal);
        Assert.Equal((0L, 0L), ((await host.RunAsync("plant")) is var again ? again.Missing : -1, again.Retired));

        _rows = kept;
        var back = await host.RunAsync("plant");
        Assert.Equal((12L, 12L, 288L), (back.Changed, back.BroughtBack, back.Unchanged));
        Assert.Equal(300, (await host.InServiceAsync()).Count);
    }

    /// <summary>5 % of 300 are 15.</summary>
    [Theory]
    [InlineData(15, RegisterSyncState.Done)]
    [InlineData(16, RegisterSyncState.Held)]
    [InlineData(300, RegisterSyncState.Held)]
    public async Task Run_MoreGoneThanMayGo_RetiresNothingUntilSomebodyAccepts(int gone, RegisterSyncState expected)
    {
        await using var register = await StartRegisterAsync();
        await using var host = await LoadedAsync(register, $"missing_many_{gone}");
        _rows = [.. _rows.Skip(gone)];
        var run = await host.RunAsync("plant");
        Assert.Equal((expected, (long)gone), (run.State, run.Missing!.Value));
        Assert.Equal(expected == RegisterSyncState.Held ? 300 : 300 - gone, (await host.InServiceAsync()).Count);
        if (expected == RegisterSyncState.Done)
            return;
        Assert.Equal("too-many-missing", run.ReasonCode);
        Assert.Contains($"{gone} of them", run.ReasonDetail, StringComparison.Ordinal);
        Assert.Equal(RegisterSyncState.Held, (await host.RunAsync("plant")).State);

        var accepted = await host.RunAsync("plant", acceptMissing: true);
        Assert.Equal((RegisterSyncState.Done, (long)gone), (accepted.State, accepted.Retired));
        Assert.Equal(300 - gone, (await host.InServiceAsync()).Count);
    }

    [Fact]
    public async Task Run_ListThatMayBeIncomplete_RetiresNothing()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await LoadedAsync(register, "missing_doubt");
        (_rows, _announced) = ([.. _rows.Skip(5)], 300);
        var fewer = await host.RunAsync("plant");
        Assert.Equal((RegisterSyncState.Done, null), (fewer.State, fewer.Missing));
        Assert.NotEmpty(SyncHost.NotesOf(fewer).Doubts);

        (_rows, _announced) = ([.. _rows, """{"name":"the key of one is gone"}"""], null);
        Assert.Equal((RegisterSyncState.Done, null), ((await host.RunAsync("plant")) is var keyless ? keyless.State : default, keyless.Missing));
        Assert.Equal(300, (await host.InServiceAsync()).Count);

        // A row that cannot be taken is there all the same.
        _rows = [.. Enumerable.Range(0, 300).Select(i => i == 7 ? """{"id":"A-7","retired":"perhaps"}""" : Row(i))];
        Assert.Equal((1L, 0L), ((await host.RunAsync("plant")) is var refused ? refused.Refused : -1, refused.Missing));
        Assert.Equal(300, (await host.InServiceAsync()).Count);
    }

    [Fact]
    public async Task Run_AssetOfTwoSources_GoesWhenBothListItNoMore()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await LoadedAsync(register, "missing_two");
        await host.SaveAsync("stores", SyncHost.Pages(register));
        await host.RunAsync("stores");
        _rows = [.. _rows.Skip(1)];
        Assert.Equal((1L, 0L), ((await host.RunAsync("plant")) is var first ? first.Missing : -1, first.Retired));
        Assert.Equal((1L, 1L), ((await host.RunAsync("stores")) is var second ? second.Missing : -1, second.Retired));
        Assert.NotNull((await host.AssetAsync("A-0")).RetiredAt);
    }

    [Fact]
    public async Task Run_SourceThatKeeps_RetiresNothing()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await SyncHost.StartAsync(server, "missing_keep");
        await host.SaveAsync("plant", SyncHost.Pages(register) with { WhenMissing = Domain.Registers.WhenMissing.Keep });
        await host.RunAsync("plant");
        _rows = [.. _rows.Take(10)];
        Assert.Equal((RegisterSyncState.Done, 290L, 0L), ((await host.RunAsync("plant")) is var run ? run.State : default, run.Missing, run.Retired));
        Assert.Equal(300, (await host.InServiceAsync()).Count);
    }

    [Fact]
    public async Task Run_AssetRetiredByHand_StaysRetiredThoughListed()
    {
        await using var register = await StartRegisterAsync();
        await using var host = await LoadedAsync(register, "missing_by_hand");
        await host.Storage.Get<TagService.Storage.Bulk.AssetBulkWriter>().WriteAsync(
            [new(new() { AssetId = "A-1", Description = "pump 1" }, null) { Retired = new(null, "scrapped") }], "push", default);
        await host.RunAsync("plant");
        Assert.Equal("scrapped", (await host.AssetAsync("A-1")).RetiredReason);
    }

    private async Task<SyncHost> LoadedAsync(FaultyRegister register, string database)
    {
        var host = await SyncHost.StartAsync(server, database);
        // Rows that say nothing of retirement.
        var source = SyncHost.Pages(register);
        await host.SaveAsync("plant", source);
        Assert.Equal(300, (await host.RunAsync("plant")).Created);
        return host;
    }

    private Task<FaultyRegister> StartRegisterAsync() => StartAsync((context, _) =>
    {
        var page = Number(context, "page", 1);
        return WriteAsync(context, Page(_rows.Skip((page - 1) * 50).Take(50).Select(r => r.Replace(",\"retired\":false", "", StringComparison.Ordinal)), total: _announced ?? _rows.Count));
    });
}
