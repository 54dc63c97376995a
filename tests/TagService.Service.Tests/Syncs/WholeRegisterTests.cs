using System.Globalization;
using System.Text;
using TagService.Service.Tests.Database;
using TagService.Storage.Tables;
using static TagService.Service.Tests.Registers.FaultyRegister;

namespace TagService.Service.Tests.Syncs;

/// <summary>200,000 assets at a time; how fast is measured by the benchmarks. Rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class WholeRegisterTests(TestDatabase server)
{
    private const int Count = 200_000;

    [Fact]
    public async Task Run_ByHttp_WritesAll()
    {
        await using var register = await StartAsync((context, _) =>
        {
            var first = (Number(context, "page", 1) - 1) * 1000;
            return WriteAsync(context, Page(Enumerable.Range(first, Math.Max(0, Math.Min(1000, Count - first))).Select(Row), total: Count));
        });
        await using var host = await SyncHost.StartAsync(server, "whole_http");
        await host.SaveAsync("plant", SyncHost.Pages(register));
        await CheckAsync(host, "plant");
    }

    [Fact]
    public async Task Run_ByCsv_WritesAll()
    {
        using var folder = new LocalDatabase.TemporaryFolder();
        await using (var file = new StreamWriter(Path.Combine(folder.Path, "register.csv"), append: false, new UTF8Encoding(false)))
        {
            await file.WriteLineAsync("id;name;wall;retired");
            for (var i = 0; i < Count; i++)
                await file.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"A-{i};\"pump {i}\";{i % 9},5;no"));
        }

        await using var host = await SyncHost.StartAsync(server, "whole_csv", null, ("Registers:Files:Folders:drop", folder.Path));
        await host.SaveAsync("plant", SyncHost.Csv());
        await CheckAsync(host, "plant");
        Assert.Equal(7.5, (await host.AssetAsync("A-7")).Record.Surface!.ThicknessMm);
    }

    private static async Task CheckAsync(SyncHost host, string name)
    {
        var run = await host.RunAsync(name);
        Assert.Equal((RegisterSyncState.Done, (long)Count, (long)Count, 0L, 0L), (run.State, run.Rows, run.Created, run.Refused, run.Missing));
        Assert.Equal(Count, await host.Storage.CountAsync("assets WHERE record ->> 'description' = 'pump ' || substr(asset_id, 3)"));
        Assert.Equal(Count, await host.Storage.CountAsync("recommendations_due"));
    }
}
