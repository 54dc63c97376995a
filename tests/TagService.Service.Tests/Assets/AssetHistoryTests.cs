using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Assets;

/// <summary>Invented assets. The check of the history is the asset itself: replayed, it must give what is there.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AssetHistoryTests(RealHost host) : IClassFixture<RealHost>
{
    private readonly HttpClient _client = host.Client;

    [Fact]
    public async Task History_OfAFewChanges_SaysWhatChangedFromWhatToWhat()
    {
        await _client.PutAssetAsync("told", """{"category":"pump","locationName":"Hall 1","environment":{"ipRequired":["IP54"]}}""");
        await _client.PatchAssetAsync("told", """{"locationName":"Hall 2","environment":{"ipRequired":["IP66","IP68"]},"a/b~c":"1"}""");
        await _client.PostBatchAsync("""{"assetId":"told","category":"pump","retired":{"at":"2026-02-03T00:00:00Z","reason":"sold"}}""");
        await _client.PatchAssetAsync("told", "{}");

        var items = await HistoryAsync("told", 100);
        Assert.Equal(["changed", "changed", "created"], items.Select(i => (string)i["action"]!));
        Assert.All(items, i => Assert.Equal(("unnamed-caller", "push"), ((string?)i["by"], (string?)i["source"])));
        Assert.True(JsonNode.DeepEquals(
            JsonNode.Parse(
                """
                [{"pointer":"/attributes/a~1b~0c","to":"1"},
                 {"pointer":"/environment/ipRequired","from":["IP54"],"to":["IP66","IP68"]},
                 {"pointer":"/locationName","from":"Hall 1","to":"Hall 2"}]
                """),
            items[1]["changes"]), items[1]["changes"]!.ToJsonString());
        Assert.Equal(
            ["/attributes/a~1b~0c", "/environment/ipRequired", "/locationName", "/retired/at", "/retired/reason"],
            items[0]["changes"]!.AsArray().Select(c => (string)c!["pointer"]!));
        Assert.Equal(["/category", "/environment/ipRequired", "/locationName", "/source"], items[2]["changes"]!.AsArray().Select(c => (string)c!["pointer"]!));
        Assert.All(items[2]["changes"]!.AsArray(), c => Assert.Null(c!["from"]));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task History_RandomChangesReplayed_GivesThePresentState(int seed)
    {
        var random = new Random(seed);
        var id = $"replay/{seed}";
        await _client.PutAssetAsync(id, "{}");
        for (var i = 0; i < 40; i++)
        {
            var body = Body(random);
            if (random.Next(3) == 0)
                await Ok(_client.PutAssetAsync(id, body.ToJsonString()));
            else if (random.Next(2) == 0)
                await Ok(_client.PatchAssetAsync(id, Patch(random, body).ToJsonString()));
            else
                Assert.Equal(2, (await _client.PostBatchAsync(new JsonObject(body.DeepClone().AsObject().Select(m => KeyValuePair.Create(m.Key, m.Value?.DeepClone()))) { ["assetId"] = id }.ToJsonString())).Count);
        }

        var rebuilt = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var items = await HistoryAsync(id, 7);
        Assert.InRange(items.Count, 15, 41);
        Assert.Equal("created", (string?)items[^1]["action"]);
        foreach (var change in Enumerable.Reverse(items).SelectMany(i => i["changes"]!.AsArray()))
        {
            var pointer = (string)change!["pointer"]!;
            // Each change begins where the one before it ended.
            Assert.Equal(rebuilt.GetValueOrDefault(pointer), change["from"]?.ToJsonString());
            if (change["to"] is { } to)
                rebuilt[pointer] = to.ToJsonString();
            else
                rebuilt.Remove(pointer);
        }

        Assert.Equal(Flat(await _client.GetAssetAsync(id)), rebuilt);
    }

    [Fact]
    public async Task History_UnknownAssetOrBadPage_IsAProblem()
    {
        Assert.Equal(HttpStatusCode.NotFound, (await _client.GetAsync("/v1/assets/nobody/history")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await _client.GetAsync("/v1/assets/nobody/history?before=0")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await _client.GetAsync("/v1/assets/nobody/history?limit=0")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await _client.GetAsync("/v1/assets/%00/history")).StatusCode);
    }

    private async Task<List<JsonNode>> HistoryAsync(string id, int limit)
    {
        var items = new List<JsonNode>();
        for (var next = $"/v1/assets/{Uri.EscapeDataString(id)}/history?limit={limit}"; next is not null;)
        {
            using var answer = await _client.GetAsync(next);
            var page = await answer.JsonAsync();
            items.AddRange(page["items"]!.AsArray().Select(i => i!));
            Assert.InRange(page["items"]!.AsArray().Count, 0, limit);
            next = answer.Headers.TryGetValues("Link", out var links) ? links.Single()[1..links.Single().IndexOf('>', StringComparison.Ordinal)] : null;
        }

        return items;
    }

    private static async Task Ok(Task<HttpResponseMessage> sent)
    {
        using var answer = await sent;
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    private static JsonObject Body(Random random)
    {
        var body = new JsonObject();
        foreach (var (name, values) in new (string, string[])[]
        {
            ("category", ["pump", "ladder"]), ("description", ["new", "old"]), ("locationName", ["Hall 1", "Hall 2"]), ("registerTag", ["T-1", "T-2"]), ("contents", ["water"]),
            ("costCentre", ["1", "2"]), ("a/b", ["x"]),
        })
        {
            if (random.Next(2) == 0)
                body[name] = values[random.Next(values.Length)];
        }

        if (random.Next(2) == 0)
            body["surface"] = new JsonObject { ["material"] = random.Next(2) == 0 ? "steel" : "wood", ["thicknessMm"] = random.Next(1, 4) };
        if (random.Next(3) == 0)
            body["environment"] = new JsonObject { ["ipRequired"] = new JsonArray(random.Next(2) == 0 ? "IP54" : "IP66") };
        if (random.Next(4) == 0)
            body["retired"] = random.Next(2) == 0 ? [] : new JsonObject { ["at"] = "2026-01-02T03:04:05Z", ["reason"] = "sold" };
        return body;
    }

    private static JsonObject Patch(Random random, JsonObject body)
    {
        foreach (var name in new[] { "category", "description", "locationName", "registerTag", "surface", "environment", "retired", "attributes", "costCentre" })
        {
            if (!body.ContainsKey(name) && random.Next(5) == 0)
                body[name] = null;
        }

        return body;
    }

    // The asset as a GET shows it, in the pointers of the history.
    private static SortedDictionary<string, string> Flat(JsonNode asset)
    {
        var flat = new SortedDictionary<string, string>(StringComparer.Ordinal);
        Add("", asset["record"]!);
        flat.Remove("/assetId");
        foreach (var name in new[] { "locationName", "registerTag", "source", "retired" })
        {
            if (asset[name] is { } value)
                Add($"/{name}", value);
        }

        return flat;

        void Add(string pointer, JsonNode node)
        {
            if (node is not JsonObject members)
            {
                flat[pointer] = node.ToJsonString();
                return;
            }

            foreach (var (name, value) in members)
                Add($"{pointer}/{name.Replace("/", "~1", StringComparison.Ordinal)}", value!);
        }
    }
}
