using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Locations;

/// <summary>Locations as HTTP: RFC 9110, sections 9.3.4, 9.3.5, 13.1.1 and 13.1.2; RFC 8288 for pages. All places are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class LocationsEndpointsTests(RealHost host) : IClassFixture<RealHost>
{
    private const string Root = "/v1/locations";

    [Fact]
    public async Task Put_NewLocation_IsCreatedShownReplacedAndDeleted()
    {
        using var created = await host.Client.PutItemAsync(
            $"{Root}/life", """{"id":"life","name":"Pump hall","aliases":["HQ / Pump hall"],"setting":"plant","note":"two\nlines"}""", ifNoneMatch: "*");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        Assert.Equal($"{Root}/life", created.Headers.Location!.OriginalString);

        using var read = await host.Client.GetItemAsync($"{Root}/life");
        var shown = await read.JsonAsync();
        Assert.Equal(created.Headers.ETag, read.Headers.ETag);
        Assert.True(JsonNode.DeepEquals(shown, await created.JsonAsync()));
        Assert.Equal(("Pump hall", "plant", "two\nlines"), ((string?)shown["name"], (string?)shown["setting"], (string?)shown["note"]));
        using var known = await host.Client.GetItemAsync($"{Root}/life", ifNoneMatch: $"W/{read.Headers.ETag}");
        Assert.Equal(HttpStatusCode.NotModified, known.StatusCode);
        using var twice = await host.Client.PutItemAsync($"{Root}/life", """{"name":"x"}""", ifNoneMatch: "*");
        await HostileRequestTests.Problem(twice, HttpStatusCode.PreconditionFailed, "precondition-failed");

        // Members left out are empty afterwards.
        using var replaced = await host.Client.PutItemAsync($"{Root}/life", """{"name":"Pump hall 2"}""", ifMatch: created.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.OK, replaced.StatusCode);
        Assert.NotEqual(created.Headers.ETag, replaced.Headers.ETag);
        var now = await replaced.JsonAsync();
        Assert.Equal((0, null, null), (now["aliases"]!.AsArray().Count, now["setting"], now["note"]));
        using var late = await host.Client.DeleteItemAsync($"{Root}/life", created.Headers.ETag.ToString());
        await HostileRequestTests.Problem(late, HttpStatusCode.PreconditionFailed, "precondition-failed");
        using var deleted = await host.Client.DeleteItemAsync($"{Root}/life", replaced.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        using var gone = await host.Client.GetItemAsync($"{Root}/life");
        await HostileRequestTests.Problem(gone, HttpStatusCode.NotFound, "not-found");
    }

    [Fact]
    public async Task Put_SameAgain_ChangesNeitherTagNorTime()
    {
        const string body = """{"name":"Store","aliases":["Store 1","Store one"]}""";
        using var first = await host.Client.PutItemAsync($"{Root}/same", body);
        using var second = await host.Client.PutItemAsync($"{Root}/same", body);
        Assert.Equal((HttpStatusCode.OK, first.Headers.ETag), (second.StatusCode, second.Headers.ETag));
        Assert.True(JsonNode.DeepEquals(await first.JsonAsync(), await second.JsonAsync()));
        Assert.Single(await host.Client.ListAsync("/v1/changes?kind=location&key=same"));
    }

    [Theory]
    [InlineData("north/pump hall")]
    [InlineData("Zürich Halle 3")]
    [InlineData("泵房")]
    [InlineData("50%")]
    [InlineData("a%2Fb?#&+")]
    public async Task Put_UnusualId_IsFoundAgainUnderItsAddress(string id)
    {
        using var created = await host.Client.PutItemAsync($"{Root}/{Uri.EscapeDataString(id)}", """{"name":"x"}""");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        // An escaped escape of a slash reads as a slash: the one id that does not come back as sent.
        var expected = id.Replace("%2F", "/", StringComparison.Ordinal);
        Assert.Equal(expected, (string?)(await created.JsonAsync())["id"]);
        using var read = await host.Client.GetItemAsync(created.Headers.Location!.OriginalString);
        Assert.Equal(expected, (string?)(await read.JsonAsync())["id"]);
        using var deleted = await host.Client.DeleteItemAsync(created.Headers.Location.OriginalString);
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
    }

    [Theory]
    [InlineData("%20a")]
    [InlineData("a%0Ab")]
    [InlineData("a%00b")]
    [InlineData("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa")]
    public async Task Put_UnusableId_IsRefusedAndNowhereFound(string id)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/{id}", """{"name":"x"}""");
        Assert.Equal(HttpStatusCode.BadRequest, put.StatusCode);
        using var read = await host.Client.GetItemAsync($"{Root}/{id}");
        using var deleted = await host.Client.DeleteItemAsync($"{Root}/{id}");
        Assert.All([read, deleted], r => Assert.InRange((int)r.StatusCode, 400, 404));
    }

    [Theory]
    [InlineData("""{"name":"x","parentId":"nowhere"}""", 400, "invalid-fields", "#/parentId")]
    [InlineData("""{"name":"x","parentId":"a\u0000"}""", 400, "invalid-fields", "#/parentId")]
    [InlineData("""{"name":" x"}""", 400, "invalid-fields", "#/name")]
    [InlineData("""{"name":"a\nb"}""", 400, "invalid-fields", "#/name")]
    [InlineData("""{"aliases":[]}""", 400, "invalid-fields", "#/name")]
    [InlineData("""{"name":"x","setting":"moon"}""", 400, "invalid-fields", "#/setting")]
    [InlineData("""{"name":"x","note":"\u0000"}""", 400, "invalid-fields", "#/note")]
    [InlineData("""{"name":"x","aliases":["a",""]}""", 400, "invalid-fields", "#/aliases/1")]
    [InlineData("""{"name":"x","aliases":["a","b\u0000"]}""", 400, "invalid-fields", "#/aliases/1")]
    [InlineData("""{"name":"x","aliases":["Store  1","b","store 1"]}""", 422, "contradictory-fields", "#/aliases/2")]
    [InlineData("""{"id":"other","name":"x"}""", 422, "contradictory-fields", "#/id")]
    [InlineData("""{"name":"x","parentId":"faulty"}""", 409, "conflict", "#/parentId")]
    public async Task Put_FaultyLocation_IsRefusedNamingThePlace(string body, int status, string problem, string pointer)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/faulty", body);
        var found = await HostileRequestTests.Problem(put, (HttpStatusCode)status, problem);
        Assert.Contains(found.Errors!, e => e.Pointer == pointer);
        using var read = await host.Client.GetItemAsync($"{Root}/faulty");
        Assert.Equal(HttpStatusCode.NotFound, read.StatusCode);
    }

    [Fact]
    public async Task Put_MoveIntoOwnSubtree_IsRefusedWithThePath()
    {
        await host.Client.GivenAsync(
            ($"{Root}/cy-site", """{"name":"Site"}"""), ($"{Root}/cy-hall", """{"name":"Hall","parentId":"cy-site"}"""), ($"{Root}/cy-bay", """{"name":"Bay","parentId":"cy-hall"}"""));
        using var move = await host.Client.PutItemAsync($"{Root}/cy-site", """{"name":"Site","parentId":"cy-bay"}""");
        var problem = await HostileRequestTests.Problem(move, HttpStatusCode.Conflict, "conflict");
        Assert.Contains("cy-site > cy-hall > cy-bay > cy-site", problem.Detail, StringComparison.Ordinal);

        // Sideways and to the top is fine.
        await host.Client.GivenAsync(($"{Root}/cy-bay", """{"name":"Bay","parentId":"cy-site"}"""), ($"{Root}/cy-hall", """{"name":"Hall"}"""), ($"{Root}/cy-site", """{"name":"Site","parentId":"cy-hall"}"""));
        Assert.Equal(["cy-bay", "cy-hall", "cy-site"], await host.Client.IdsAsync($"{Root}?under=cy-hall"));
    }

    [Fact]
    public async Task Delete_LocationInUse_IsRefusedNamingTheUsers()
    {
        await host.Client.GivenAsync(
            ($"{Root}/use", """{"name":"Site"}"""), ($"{Root}/use-hall", """{"name":"Hall","parentId":"use"}"""),
            ("/v1/read-points/use-gate", """{"name":"Gate","kind":"passage","locationId":"use-hall"}"""));
        using var parent = await host.Client.DeleteItemAsync($"{Root}/use");
        Assert.Contains("use-hall", (await HostileRequestTests.Problem(parent, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
        using var covered = await host.Client.DeleteItemAsync($"{Root}/use-hall");
        Assert.Contains("use-gate", (await HostileRequestTests.Problem(covered, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
        foreach (var path in new[] { "/v1/read-points/use-gate", $"{Root}/use-hall", $"{Root}/use" })
        {
            using var deleted = await host.Client.DeleteItemAsync(path);
            Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        }
    }

    [Fact]
    public async Task Put_AliasOfAnother_IsRefusedUntilItIsGivenUp()
    {
        await host.Client.GivenAsync(($"{Root}/al-1", """{"name":"One","aliases":["Store 7","S7"]}"""));
        using var taken = await host.Client.PutItemAsync($"{Root}/al-2", """{"name":"Two","aliases":["x7","STORE  7"]}""");
        var problem = await HostileRequestTests.Problem(taken, HttpStatusCode.Conflict, "conflict");
        Assert.Contains("al-1", Assert.Single(problem.Errors!, e => e.Pointer == "#/aliases/1").Detail, StringComparison.Ordinal);

        // Its own aliases may be written differently, and what is given up is free.
        await host.Client.GivenAsync(($"{Root}/al-1", """{"name":"One","aliases":["store 7"]}"""), ($"{Root}/al-1", """{"name":"One","aliases":[]}"""), ($"{Root}/al-2", """{"name":"Two","aliases":["STORE  7"]}"""));
        Assert.Equal(["al-2"], await host.Client.IdsAsync($"{Root}?name=Store%207"));
    }

    [Fact]
    public async Task List_ByName_GivesTheAliasOrAllOfThatName()
    {
        await host.Client.GivenAsync(
            ($"{Root}/nm-1", """{"name":"Boiler room"}"""), ($"{Root}/nm-2", """{"name":"boiler  ROOM","parentId":"nm-1"}"""), ($"{Root}/nm-3", """{"name":"Other","aliases":["Kesselhaus"]}"""));
        Assert.Equal(["nm-1", "nm-2"], await host.Client.IdsAsync($"{Root}?name=Boiler%20Room&limit=1"));
        Assert.Equal(["nm-2"], await host.Client.IdsAsync($"{Root}?name=boiler%20room&after=nm-1"));
        Assert.Equal(["nm-3"], await host.Client.IdsAsync($"{Root}?name=KESSELHAUS"));
        Assert.Empty(await host.Client.IdsAsync($"{Root}?name=Kesselhaus&under=nm-1"));

        // An alias means one location, even where others are called so.
        await host.Client.GivenAsync(($"{Root}/nm-3", """{"name":"Other","aliases":["Boiler room"]}"""));
        Assert.Equal(["nm-3"], await host.Client.IdsAsync($"{Root}?name=boiler%20room"));
    }

    [Fact]
    public async Task List_Subtree_IsPagedByLinksThatKeepIt()
    {
        await host.Client.GivenAsync([($"{Root}/pg", """{"name":"Top"}"""), .. Enumerable.Range(0, 9).Select(i => ($"{Root}/pg-{i}", $$"""{"name":"Part","parentId":"{{(i < 2 ? "pg" : $"pg-{i / 2}")}}"}"""))]);
        string[] all = ["pg", .. Enumerable.Range(0, 9).Select(i => $"pg-{i}")];
        Assert.Equal(all, await host.Client.IdsAsync($"{Root}?under=pg&limit=3"));
        Assert.Equal(["pg-2", "pg-4", "pg-5", "pg-8"], await host.Client.IdsAsync($"{Root}?under=pg-2&limit=1"));
        using var nowhere = await host.Client.GetAsync($"{Root}?under=nowhere");
        await HostileRequestTests.Problem(nowhere, HttpStatusCode.NotFound, "not-found");
    }

    [Theory]
    [InlineData("limit=0")]
    [InlineData("limit=1001")]
    [InlineData("limit=x")]
    [InlineData("after=%00")]
    [InlineData("name=%00")]
    [InlineData("under=a%0Ab")]
    public async Task List_UnusableParameter_Is400(string query)
    {
        using var response = await host.Client.GetAsync($"{Root}?{query}");
        await HostileRequestTests.Problem(response, HttpStatusCode.BadRequest, "invalid-request");
    }
}
