using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Http;
using TagService.Service.Tests.Storage;
using TagService.Storage.Schema;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>The batch a tag came from: entered before it is named, counted afterwards. Deliveries and failures are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentTagBatchTests(TestDatabase server, RealHost host) : IClassFixture<RealHost>
{
    private const string Class = "\"tagClassId\":\"hard-metal-mount-large\"";

    private HttpClient Client => host.Client;

    [Fact]
    public async Task Start_UnknownBatch_IsRefusedNamingANearOneAndHowToEnterIt()
    {
        await Client.GivenAsync(("/v1/tag-batches/2026-04-plates", $"{{{Class}}}"));
        var (asset, tag) = (await Client.NewAssetAsync(), NewTag());
        using var single = await Client.StartAsync(asset, $$"""{"identity":"{{tag}}","tagBatchId":"2026-04 plate"}""");
        var problem = await HostileRequestTests.Problem(single, HttpStatusCode.BadRequest, "invalid-fields");
        var error = Assert.Single(problem.Errors!);
        Assert.Equal(("#/tagBatchId", "2026-04 plate"), (error.Pointer, error.Value));
        Assert.Contains("perhaps 2026-04-plates", error.Accepted, StringComparison.Ordinal);
        Assert.Contains("PUT /v1/tag-batches/2026-04%20plate", error.Accepted, StringComparison.Ordinal);

        // The same words in a batch, and the rest of it goes on; nothing of the refused line is kept.
        var lines = await Client.BatchAsync($$"""
            {"identity":"{{tag}}","assetId":"{{asset}}","tagBatchId":"2026-04 plate"}
            {"identity":"{{NewTag()}}","assetId":"{{asset}}","tagBatchId":"2026-04-plates"}
            """);
        Assert.Equal((error.Pointer, error.Value, error.Detail, error.Accepted), Of(lines[0]["errors"]![0]!));
        Assert.Equal("started", (string?)lines[1]["result"]);
        Assert.Empty(await Client.OfTagAsync(tag));

        var started = await Client.StartedAsync(asset, $$"""{"identity":"{{tag}}"}""");
        using var patch = await Client.PatchAsync(started.Id(), """{"tagBatchId":"2026-04 plate"}""");
        Assert.Equal("#/tagBatchId", (await HostileRequestTests.Problem(patch, HttpStatusCode.BadRequest, "invalid-fields")).Errors!.Single().Pointer);
        await Client.GivenAsync(("/v1/tag-batches/2026-04%20plate", $"{{{Class}}}"));
        Assert.Equal("2026-04 plate", (string?)(await Client.PatchedAsync(started.Id(), """{"tagBatchId":"2026-04 plate"}"""))["attachment"]!["tagBatchId"]);

        static (string, string?, string, string?) Of(JsonNode e) => ((string)e["pointer"]!, (string?)e["value"], (string)e["detail"]!, (string?)e["accepted"]);
    }

    [Fact]
    public async Task Get_Batch_TellsWhatBecameOfItsTags()
    {
        const string path = "/v1/tag-batches/counted";
        await Client.GivenAsync((path, $$"""{{{Class}},"quantity":10}"""));
        var (asset, other, moved) = (await Client.NewAssetAsync(), await Client.NewAssetAsync(), NewTag());
        Assert.Equal("""{"bought":10,"fitted":0,"remainder":10,"attachments":0,"openNow":0,"failed":0,"removed":0,"notKnown":0}""", await UseAsync());
        using var before = await Client.GetItemAsync(path);

        var ids = new List<string>();
        for (var i = 0; i < 5; i++)
            ids.Add((await Client.StartedAsync(asset, $$"""{"identity":"{{(i == 0 ? moved : NewTag())}}","tagBatchId":"counted","startAt":"{{Day(1)}}"}""")).Id());
        await Client.PatchedAsync(ids[1], $$"""{"endReason":"fell-off","endAt":"{{Day(9)}}"}""");
        await Client.PatchedAsync(ids[2], $$"""{"endReason":"asset-retired","endAt":"{{Day(9)}}"}""");
        await Client.PatchedAsync(ids[3], """{"endReason":"gone-without-trace"}""");
        await Client.PatchedAsync(ids[4], """{"endReason":"never-happened"}""");
        await Client.StartedAsync(other, $$"""{"identity":"{{moved}}","tagBatchId":"counted","startAt":"{{Day(5)}}","endPrevious":{"reason":"moved-to-another-asset","at":"{{Day(4)}}"} }""");
        // Four tags in five attachments: one was moved, one entry never happened.
        const string expected = """{"bought":10,"fitted":4,"remainder":6,"attachments":5,"openNow":1,"failed":1,"removed":2,"notKnown":1}""";
        Assert.Equal(expected, await UseAsync());
        Assert.Equal(expected, (await Client.ListAsync("/v1/tag-batches?limit=1")).Single(b => (string?)b["id"] == "counted")["use"]!.ToJsonString());

        // What is shown has another entity tag; a change of the batch depends on the batch only.
        using var stale = await Client.GetItemAsync(path, ifNoneMatch: before.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.OK, stale.StatusCode);
        using var same = await Client.GetItemAsync(path, ifNoneMatch: stale.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NotModified, same.StatusCode);
        using var put = await Client.PutItemAsync(path, $$"""{{{Class}},"quantity":3}""", ifMatch: before.Headers.ETag!.ToString());
        Assert.Equal((HttpStatusCode.OK, -1), (put.StatusCode, (int)(await put.JsonAsync())["use"]!["remainder"]!));
        using var delete = await Client.DeleteItemAsync(path, put.Headers.ETag!.ToString());
        Assert.Contains("attachments", (await HostileRequestTests.Problem(delete, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);

        async Task<string> UseAsync() => (await Client.GetFromJsonAsync<JsonNode>(path))!["use"]!.ToJsonString();
    }

    // A batch taken away while a fitter's result names it: one of the two wins, and nobody gets a 500.
    [Fact]
    public async Task Delete_BatchWhileItIsNamed_OneOfBothIsRefusedClearly()
    {
        var asset = await Client.NewAssetAsync();
        for (var round = 0; round < 20; round++)
        {
            await Client.GivenAsync(($"/v1/tag-batches/race-{round}", $"{{{Class}}}"));
            var (start, delete) = (Client.StartAsync(asset, $$"""{"identity":"{{NewTag()}}","tagBatchId":"race-{{round}}"}"""), Client.DeleteItemAsync($"/v1/tag-batches/race-{round}"));
            using var started = await start;
            using var deleted = await delete;
            Assert.Equal(
                started.StatusCode == HttpStatusCode.Created ? HttpStatusCode.Conflict : HttpStatusCode.NoContent,
                deleted.StatusCode);
            Assert.True(started.StatusCode is HttpStatusCode.Created or HttpStatusCode.BadRequest, $"{started.StatusCode}");
        }
    }

    // Rows of a version that did not check: the migration runs, they can still be changed, and they count once somebody enters the batch.
    [Fact]
    public async Task Migrate_RowsThatNameUnknownBatches_StayAndCanBeChanged()
    {
        await using var storage = await StorageServices.CreateEmptyAsync(server, "batches_before");
        await storage.WithContextAsync(async c =>
        {
            await c.GetService<IMigrator>().MigrateAsync("Fitting");
            return 0;
        });
        await storage.ScalarAsync(
            """
            INSERT INTO assets (asset_id, record, updated_at) VALUES ('A', '{"assetId":"A"}', now());
            INSERT INTO tags (identity, first_recorded_at) VALUES ('8004:95211411', now());
            INSERT INTO attachments (tag_id, id, asset_id, is_void, taken_over, recorded_at, tag_batch_id)
            SELECT id, '0196a3c4-5400-7d11-8a41-7be9a3b0c955', 'A', false, false, now(), 'lost' FROM tags
            """);
        await storage.Get<DatabaseMigrator>().MigrateAsync(default);

        await using var running = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        var ended = await running.Client.PatchedAsync("0196a3c4-5400-7d11-8a41-7be9a3b0c955", """{"endReason":"fell-off","note":"x"}""");
        Assert.Equal("lost", (string?)ended["attachment"]!["tagBatchId"]);
        using var another = await running.Client.StartAsync("A", $$"""{"identity":"{{NewTag()}}","tagBatchId":"lost"}""");
        Assert.Equal(HttpStatusCode.BadRequest, another.StatusCode);
        await running.Client.GivenAsync(("/v1/tag-batches/lost", $"{{{Class}}}"));
        Assert.Equal(1, (int)(await running.Client.GetFromJsonAsync<JsonNode>("/v1/tag-batches/lost"))!["use"]!["failed"]!);
        // The database itself refuses what no program checked.
        await Assert.ThrowsAsync<Npgsql.PostgresException>(() => storage.ScalarAsync("UPDATE attachments SET tag_batch_id = 'nowhere'"));
    }
}
