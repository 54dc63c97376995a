using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Storage;

namespace TagService.Service.Tests.Hosting;

[Collection(TestDatabase.Collection)]
public sealed class AssetsEndpointsTests(TestDatabase server)
{
    /// <summary>Paging by Link header: RFC 8288, section 3 (target in angle brackets, rel as parameter).</summary>
    [Fact]
    public async Task ListAssets_FollowingLinks_GivesEachAssetOnce()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_list");
        string[] keys = ["a", "a&limit=1", "b c", "d/e", "é", "水", "%41", "+", "#1", "z>; rel=\"x\""];
        await storage.CopyAsync(keys.Select(k => StorageServices.Asset(k)));
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");

        var seen = new List<string>();
        for (var next = "/v1/assets?limit=3"; next is not null;)
        {
            using var answer = await host.Client.GetAsync(next);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            var page = (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
            Assert.InRange(page["items"]!.AsArray().Count, 1, 3);
            seen.AddRange(page["items"]!.AsArray().Select(a => (string)a!["assetId"]!));
            next = null;
            if (answer.Headers.TryGetValues("Link", out var links))
            {
                var link = Assert.Single(links);
                Assert.EndsWith(">; rel=\"next\"", link, StringComparison.Ordinal);
                next = link[1..link.IndexOf('>', StringComparison.Ordinal)];
                Assert.Equal(seen[^1], (string?)page["nextAfter"]);
            }
        }

        Assert.Equal(keys.Order(StringComparer.Ordinal), seen);
    }

    [Theory]
    [InlineData("limit=0", "limit is 0")]
    [InlineData("limit=1001", "1 to 1000")]
    [InlineData("limit=abc", "")]
    [InlineData("limit=99999999999", "")]
    [InlineData("after=%00", "NUL")]
    public async Task ListAssets_BadParameter_Is400WithTheReason(string query, string reason)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_bad");
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        using var answer = await host.Client.GetAsync($"/v1/assets?{query}");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains(reason, (string)(await answer.Content.ReadFromJsonAsync<JsonNode>())!["detail"]!, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("P-1", "P-1")]
    [InlineData("d/e f", "d%2Fe%20f")]
    [InlineData("Pümpe", "P%C3%BCmpe")]
    public async Task GetAsset_Known_HasItsRecordAndAnETag(string key, string path)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_one");
        await storage.CopyAsync([StorageServices.Asset(key, "ladder")]);
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        using var answer = await host.Client.GetAsync($"/v1/assets/{path}");
        var asset = (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
        Assert.Equal(key, (string?)asset["assetId"]);
        Assert.Equal("ladder", (string?)asset["record"]!["category"]);
        Assert.Null(asset["recommendation"]);

        var tag = answer.Headers.ETag!;
        Assert.False(tag.IsWeak);
        Assert.Equal(HttpStatusCode.NotModified, await StatusAsync());
        await storage.ScalarAsync("UPDATE assets SET location_name = 'moved'");
        Assert.Equal(HttpStatusCode.OK, await StatusAsync());

        async Task<HttpStatusCode> StatusAsync()
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, $"/v1/assets/{path}");
            request.Headers.IfNoneMatch.Add(tag);
            using var again = await host.Client.SendAsync(request);
            return again.StatusCode;
        }
    }

    [Theory]
    [InlineData("nobody")]
    [InlineData("P-1%20")]
    public async Task GetAsset_Unknown_Is404Problem(string path)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_none");
        await storage.CopyAsync([StorageServices.Asset("P-1")]);
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        using var answer = await host.Client.GetAsync($"/v1/assets/{path}");
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    /// <summary>A database outage is 503 with Retry-After (RFC 9110, section 15.6.4), never 404 or 500, and soon.</summary>
    [Fact]
    public async Task GetAsset_DatabaseGone_Is503()
    {
        await using var host = await RunningHost.StartAsync("Host=127.0.0.1;Port=1;Database=x;Username=u;Password=sesame-4711", "--Roles=api");
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        using var answer = await host.Client.GetAsync("/v1/assets/a", limit.Token);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.NotNull(answer.Headers.RetryAfter);
        await host.StopAsync();
        Assert.DoesNotContain(host.LogLines, l => l.Contains("sesame-4711", StringComparison.Ordinal));
        Assert.Contains(host.LogLines, l => l.Contains("\"Route\":\"/v1/assets/{assetId}\",\"StatusCode\":503", StringComparison.Ordinal));
    }

    /// <summary>The whole path: the worker stores a recommendation, the asset shows it.</summary>
    [Fact]
    public async Task GetAsset_WithWorker_ShowsTheStoredRecommendation()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_worker");
        await storage.CopyAsync([StorageServices.Asset("L-1", "ladder")]);
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Worker:PollSeconds=1");
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        JsonNode? stored = null;
        while (stored is null)
        {
            await Task.Delay(50, limit.Token);
            stored = (await host.Client.GetFromJsonAsync<JsonNode>("/v1/assets/L-1", limit.Token))!["recommendation"];
        }

        Assert.True((bool)stored["isCurrent"]!);
        Assert.NotNull(stored["tagClassId"] ?? stored["noneBecause"]);

        // An asset that changes is found by a later look.
        await storage.CopyAsync([StorageServices.Asset("L-1", "laptop")]);
        while (!(bool)(await host.Client.GetFromJsonAsync<JsonNode>("/v1/assets/L-1", limit.Token))!["recommendation"]!["isCurrent"]!)
            await Task.Delay(50, limit.Token);
    }
}
