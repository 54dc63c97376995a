using System.Globalization;
using System.Net;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>Many writers of the same tags and assets, in two services on one database.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentConcurrencyTests(TestDatabase server)
{
    private const int Writers = 16;

    [Fact]
    public async Task Start_ManyWritersOfOneTag_OneWinsAndTheOthersAreToldBywhom()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_race");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        for (var round = 0; round < 5; round++)
        {
            var tag = NewTag();
            string[] assets = await Task.WhenAll(Enumerable.Range(0, Writers).Select(_ => one.Client.NewAssetAsync()));
            var answers = await Task.WhenAll(assets.Select((a, i) => (i % 2 == 0 ? one : two).Client.StartAsync(a, $$"""{"identity":"{{tag}}","startAt":"{{Day(1)}}"}""")));
            Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Created);
            Assert.Equal(Writers - 1, answers.Count(a => a.StatusCode == HttpStatusCode.Conflict));
            var winner = (string)(await one.Client.OfTagAsync(tag)).Single()!["id"]!;
            foreach (var refused in answers.Where(a => a.StatusCode == HttpStatusCode.Conflict))
                Assert.Contains(winner, await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Replace_ManyFittersOfOneAsset_EndOneAfterAnotherInAChain()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_chain");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        var asset = await one.Client.NewAssetAsync();
        await one.Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}"}""");
        var answers = await Task.WhenAll(Enumerable.Range(0, Writers).Select(i => (i % 2 == 0 ? one : two).Client.StartAsync(
            asset, $$"""{"identity":"{{NewTag()}}","endPrevious":{"reason":"damaged"} }""")));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Created, a.StatusCode));
        // Each ended exactly one: nobody's replacement was lost, and one tag is left.
        Assert.Equal(1L, await storage.ScalarAsync("SELECT count(*) FROM attachments WHERE end_reason IS NULL"));
        Assert.Equal((long)Writers, await storage.ScalarAsync("SELECT count(*) FROM attachments WHERE end_reason = 'damaged'"));
    }

    [Fact]
    public async Task Patch_ManyWritersWithOneETag_OneWins()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_etag");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        var started = await one.Client.StartedAsync(await one.Client.NewAssetAsync(), $$"""{"identity":"{{NewTag()}}"}""");
        var answers = await Task.WhenAll(Enumerable.Range(0, Writers).Select(i => (i % 2 == 0 ? one : two).Client.PatchAsync(
            started.Id(), $$"""{"note":"writer {{i}}"}""", (string)started["attachment"]!["eTag"]!)));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK);
        Assert.Equal(Writers - 1, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        Assert.Equal(1L, await storage.ScalarAsync($"SELECT count(*) FROM changes WHERE key = '{started.Id()}' AND action = 'changed'"));
    }

    [Fact]
    public async Task Batch_SameLinesFromTwoServicesInOppositeOrderBesideSingles_AreTakenOnce()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_batches");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        string[] tags = [.. Enumerable.Range(0, 600).Select(_ => NewTag())];
        string[] lines = [.. tags.Select((t, i) => string.Create(CultureInfo.InvariantCulture, $$"""{"identity":"{{t}}","assetId":"C-{{i / 3}}","startAt":"{{Day(1)}}"}"""))];
        var asset = await one.Client.NewAssetAsync();
        var batches = new[] { lines, [.. lines.Reverse()], lines, [.. lines.Reverse()] }
            .Select((l, i) => (i % 2 == 0 ? one : two).Client.BatchAsync(string.Join('\n', l), "?createAssets=true")).ToArray();
        var singles = tags.Where((_, i) => i % 60 == 0).Select((t, i) => (i % 2 == 0 ? one : two).Client.StartAsync(asset, $$"""{"identity":"{{t}}","startAt":"{{Day(2)}}"}""")).ToArray();
        var summaries = (await Task.WhenAll(batches)).Select(b => b[^1]["summary"]!).ToArray();
        var won = (await Task.WhenAll(singles)).Count(s => s.StatusCode == HttpStatusCode.Created);
        Assert.Equal(600 - won, summaries.Sum(s => (int)s["started"]!));
        Assert.Equal(4 * won, summaries.Sum(s => (int)s["refused"]!));
        Assert.Equal(601L, await storage.CountAsync("attachments"));
        // One change for every attachment, whoever wrote it.
        Assert.Equal(601L, await storage.ScalarAsync("SELECT count(DISTINCT key) FROM changes WHERE kind = 'attachment'"));
        Assert.Equal(601L, await storage.ScalarAsync("SELECT count(*) FROM changes WHERE kind = 'attachment'"));
    }
}
