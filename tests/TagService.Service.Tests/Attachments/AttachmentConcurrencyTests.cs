using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
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

    // Several tags an asset are allowed, so a plain start is in nobody's way; a replacement ends the only other one or is told of both.
    // Whatever the order, it is one that people taking turns could have had: no start is lost, and nothing ends but by a replacement.
    [Fact]
    public async Task Start_PlainOnesAndReplacementsOfOneAsset_AreAsIfOneAfterAnother()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "attach_mixed");
        await using var one = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var two = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        for (var round = 0; round < 6; round++)
        {
            var asset = await one.Client.NewAssetAsync();
            var first = await one.Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}"}""");
            Assert.Empty(first["alsoOnAsset"]!.AsArray());
            var plain = Enumerable.Range(0, 3).Select(i => (i % 2 == 0 ? one : two).Client.StartAsync(asset, $$"""{"identity":"{{NewTag()}}"}"""));
            var replacing = Enumerable.Range(0, 3).Select(i => (i % 2 == 0 ? two : one).Client.StartAsync(asset, $$"""{"identity":"{{NewTag()}}","endPrevious":{"reason":"damaged"} }"""));
            var batch = two.Client.BatchAsync($$"""{"identity":"{{NewTag()}}","assetId":"{{asset}}"}""");
            var (plainAnswers, replacements) = (await Task.WhenAll(plain), await Task.WhenAll(replacing));
            Assert.Equal("started", (string?)(await batch)[0]["result"]);
            Assert.All(plainAnswers, a => Assert.Equal(HttpStatusCode.Created, a.StatusCode));
            Assert.All(replacements, a => Assert.True(a.StatusCode is HttpStatusCode.Created or HttpStatusCode.Conflict, $"{a.StatusCode}"));
            var replaced = replacements.Count(a => a.StatusCode == HttpStatusCode.Created);
            var all = await one.Client.OfAssetAsync(asset);
            // The one that NewAssetAsync has ended, the first, four plain ones, and each replacement ended one and began one.
            Assert.Equal(1 + 1 + 4 + replaced, all.Count);
            Assert.Equal(replaced, all.Count(a => (string?)a!["endReason"] == "damaged"));
            Assert.Equal(5, all.Count(a => a!["endReason"] is null));

            // Single starts take turns: each names all that are there already, so the numbers of others all differ.
            var seen = new List<int>();
            foreach (var answer in plainAnswers)
                seen.Add((await answer.Content.ReadFromJsonAsync<JsonNode>())!["alsoOnAsset"]!.AsArray().Count);
            Assert.Equal(seen.Distinct().Count(), seen.Count);
        }
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
