using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Assets;

/// <summary>Invented assets. Conditions follow RFC 9110, sections 13.1.1 and 13.1.2; status codes section 15.</summary>
[Collection(TestDatabase.Collection)]
public sealed class PutAssetTests(RealHost host) : IClassFixture<RealHost>
{
    private readonly HttpClient _client = host.Client;

    [Fact]
    public async Task Put_NewThenSameThenOther_Is201Then200WithTheSameTagThenAnother()
    {
        const string body = """{"category":"ladder","locationName":"Store 1","registerTag":"E280-7","attributes":{"b":"2","a":"1"},"surface":{"material":"aluminium"}}""";
        using var created = await _client.PutAssetAsync("put/1", body);
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        Assert.Equal("/v1/assets/put%2F1", created.Headers.Location!.OriginalString);
        var asset = await created.JsonAsync();
        Assert.Equal(("put/1", "Store 1", "E280-7", "push"), ((string?)asset["assetId"], (string?)asset["locationName"], (string?)asset["registerTag"], (string?)asset["source"]));
        Assert.Equal("aluminium", (string?)asset["record"]!["surface"]!["material"]);
        Assert.Null(asset["retired"]);

        using var same = await _client.PutAssetAsync("put/1", """{"assetId":"put/1","attributes":{"a":"1","b":"2"},"surface":{"material":"aluminium"},"registerTag":"E280-7","locationName":"Store 1","category":"ladder"}""");
        Assert.Equal(HttpStatusCode.OK, same.StatusCode);
        Assert.Equal(created.Headers.ETag, same.Headers.ETag);
        Assert.Equal((string?)asset["updatedAt"], (string?)(await same.JsonAsync())["updatedAt"]);

        using var other = await _client.PutAssetAsync("put/1", """{"category":"ladder"}""");
        Assert.Equal(HttpStatusCode.OK, other.StatusCode);
        Assert.NotEqual(created.Headers.ETag, other.Headers.ETag);
        var after = await _client.GetAssetAsync("put/1");
        Assert.Null(after["locationName"]);
        Assert.Equal((string?)asset["firstSeenAt"], (string?)after["firstSeenAt"]);
        Assert.True(JsonNode.DeepEquals(after["record"], JsonNode.Parse("""{"assetId":"put/1","category":"ladder","attributes":{}}""")));
    }

    [Fact]
    public async Task Put_UnderConditions_IsDoneOrRefused()
    {
        using var created = await _client.PutAssetAsync("cond", "{}", ifNoneMatch: "*");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        var tag = created.Headers.ETag!.ToString();
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await _client.PutAssetAsync("cond", "{}", ifNoneMatch: "*")).StatusCode);
        using var changed = await _client.PutAssetAsync("cond", """{"category":"pump"}""", ifMatch: tag);
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await _client.PutAssetAsync("cond", "{}", ifMatch: tag)).StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await _client.PutAssetAsync("not-there", "{}", ifMatch: "*")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await _client.PutAssetAsync("cond", "{}", ifMatch: "unquoted")).StatusCode);
        // What the worker stores moves the second part only, and no condition of a change.
        var (first, second) = (changed.Headers.ETag!.Tag.Split('-')[0], changed.Headers.ETag.Tag.Split('-')[1]);
        Assert.Equal(HttpStatusCode.OK, (await _client.PutAssetAsync("cond", """{"category":"pump"}""", ifMatch: $"{first}-1{second}")).StatusCode);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await _client.PutAssetAsync("cond", """{"category":"pump"}""", ifMatch: $"{first}0-{second}")).StatusCode);
    }

    /// <summary>Sixteen callers change what they have all seen: one wins, and what it wrote is there.</summary>
    [Fact]
    public async Task Put_SameTagByMany_OneWins()
    {
        using var created = await _client.PutAssetAsync("race", "{}");
        var tag = created.Headers.ETag!.ToString();
        var answers = await Task.WhenAll(Enumerable.Range(0, 16).Select(i => _client.PutAssetAsync("race", $$"""{"category":"kind {{i}}"}""", ifMatch: tag)));
        Assert.Equal(15, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        var won = await answers.Single(a => a.StatusCode == HttpStatusCode.OK).JsonAsync();
        Assert.Equal((string?)won["record"]!["category"], (string?)(await _client.GetAssetAsync("race"))["record"]!["category"]);
    }

    [Fact]
    public async Task Put_NewAssetByMany_OneCreatesItAndNoneFails()
    {
        var answers = await Task.WhenAll(Enumerable.Range(0, 16).Select(i => _client.PutAssetAsync("born", $$"""{"category":"kind {{i}}"}""")));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Created);
        Assert.Equal(15, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
        var once = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => _client.PutAssetAsync("born once", "{}", ifNoneMatch: "*")));
        Assert.Single(once, a => a.StatusCode == HttpStatusCode.Created);
        Assert.Equal(15, once.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
    }

    [Fact]
    public async Task Put_Retired_StaysRetiredUntilSentWithout()
    {
        await _client.PutAssetAsync("gone", """{"category":"pump"}""");
        using var retired = await _client.PutAssetAsync("gone", """{"category":"pump","retired":{"reason":"scrapped"}}""");
        var at = (string?)(await retired.JsonAsync())["retired"]!["at"];
        Assert.NotNull(at);
        using var again = await _client.PutAssetAsync("gone", """{"category":"pump","retired":{"reason":"scrapped"}}""");
        Assert.Equal(retired.Headers.ETag, again.Headers.ETag);
        Assert.Equal(at, (string?)(await again.JsonAsync())["retired"]!["at"]);

        using var back = await _client.PutAssetAsync("gone", """{"category":"pump"}""");
        var asset = await back.JsonAsync();
        Assert.Null(asset["retired"]);
        Assert.Contains(asset["notices"]!.AsArray(), n => (string?)n!["code"] == "brought-back");
        using var calm = await _client.PutAssetAsync("gone", """{"category":"pump"}""");
        Assert.Empty((await calm.JsonAsync())["notices"]!.AsArray());
    }

    [Fact]
    public async Task Put_OwnFields_BecomeAttributesWithNoticesUnlessStrict()
    {
        const string body = """{"category":"pump","costCentre":"4711","reason":"spare","dept":{"name":"North","no":3}}""";
        using var kept = await _client.PutAssetAsync("own", body);
        var asset = await kept.JsonAsync();
        Assert.True(JsonNode.DeepEquals(
            asset["record"]!["attributes"], JsonNode.Parse("""{"costCentre":"4711","reason":"spare","dept.name":"North","dept.no":"3"}""")), asset.ToJsonString());
        Assert.Equal(["#/costCentre", "#/dept", "#/reason"], asset["notices"]!.AsArray().Select(n => (string)n!["pointer"]!).Order(StringComparer.Ordinal));
        using var strict = await _client.PutAssetAsync("own", body, prefer: "handling=strict");
        Assert.Equal(HttpStatusCode.BadRequest, strict.StatusCode);
        Assert.Equal(3, (await strict.JsonAsync())["errors"]!.AsArray().Count);
    }

    [Theory]
    [InlineData("x", """{"requiredRangeM":3}""", 400, "#/requiredRangeM")]
    [InlineData("x", """{"surface":{"thicknessMm":-1}}""", 400, "#/surface/thicknessMm")]
    [InlineData("x", """{"retired":{"at":"2999-01-01T00:00:00Z"}}""", 400, "#/retired/at")]
    [InlineData("x", """{"retired":{"at":"0001-01-01T00:00:00Z"}}""", 400, "#/retired/at")]
    [InlineData("x", """{"description":"a\u0000b"}""", 400, "#")]
    [InlineData("x", """{"attributes":{"a\u0000":"b"}}""", 400, "#")]
    [InlineData("x", """{"assetId":"y"}""", 422, "#/assetId")]
    [InlineData("x", """{"environment":{"temperatureMinC":50,"temperatureMaxC":10}}""", 422, "#/environment/temperatureMinC")]
    [InlineData("x", """{"reading":{"region":"atlantis"}}""", 400, "#/reading/region")]
    [InlineData("x", "[]", 400, "#")]
    public async Task Put_WhatCannotBeKept_IsRefusedWithThePlace(string id, string body, int status, string pointer)
    {
        using var answer = await _client.PutAssetAsync(id, body);
        var problem = await answer.JsonAsync();
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Contains(problem["errors"]!.AsArray(), e => (string?)e!["pointer"] == pointer);
        Assert.Equal(HttpStatusCode.NotFound, (await _client.GetAsync($"/v1/assets/{id}")).StatusCode);
    }

    [Fact]
    public async Task Put_LongestTexts_AreKeptAndLongerOnesRefused()
    {
        // Three bytes a character: the longest that an index must hold.
        var (id, text) = (new string('水', 200), new string('水', 500));
        using var kept = await _client.PutAssetAsync(id, $$"""{"category":"{{text}}","locationName":"{{text}}"}""");
        Assert.Equal(HttpStatusCode.Created, kept.StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await _client.PutAssetAsync(id + "x", "{}")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await _client.PutAssetAsync("x", $$"""{"category":"{{text}}x"}""")).StatusCode);
    }
}
