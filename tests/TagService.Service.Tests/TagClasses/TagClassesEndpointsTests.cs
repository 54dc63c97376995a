using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using static TagService.Service.Tests.TagClasses.TagClassClient;

namespace TagService.Service.Tests.TagClasses;

/// <summary>Own classes and overlays as HTTP: RFC 9110, sections 9.3.4 (PUT), 9.3.5 (DELETE), 13.1.1 and 13.1.2 (conditions).</summary>
[Collection(TestDatabase.Collection)]
public sealed class TagClassesEndpointsTests(RealHost host) : IClassFixture<RealHost>
{
    [Fact]
    public async Task Put_OwnClass_IsCreatedShownRecommendedReplacedAndDeleted()
    {
        const string id = "own-life";
        var versionBefore = await VersionAsync();
        using var created = await host.Client.PutAsync(id, Own.ToJsonString(), ifNoneMatch: "*");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        Assert.Equal($"/v1/tag-classes/{id}", created.Headers.Location!.OriginalString);

        using var read = await host.Client.GetAsync(created.Headers.Location);
        var shown = (await read.Content.ReadFromJsonAsync<JsonNode>())!;
        Assert.Equal(created.Headers.ETag, read.Headers.ETag);
        Assert.True(JsonNode.DeepEquals(shown, await created.Content.ReadFromJsonAsync<JsonNode>()));
        Assert.Equal(("own", "IP66"), ((string?)shown["origin"], (string?)shown["limits"]!["ipCodes"]![0]));
        Assert.Empty(shown["warnings"]!.AsArray());

        // Next to nothing to buy and to fix, and it lasts: what can be screwed to steel gets it.
        var answer = await host.Client.RecommendAsync("""{"surface":{"material":"steel"},"mounting":{"lengthMm":300,"widthMm":200,"maxHeightMm":30,"allowDrilling":true},"reading":{"requiredRangeM":0.5}}""");
        Assert.Equal(id, (string?)answer["recommendation"]!["tagClassId"]);
        Assert.NotEqual(versionBefore, (string?)answer["catalogueVersion"]);

        using var replaced = await host.Client.PutAsync(id, With("applicationMinutes", "5").ToJsonString(), ifMatch: created.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.OK, replaced.StatusCode);
        Assert.NotEqual(created.Headers.ETag, replaced.Headers.ETag);
        using var late = await host.Client.DeleteAsync(id, created.Headers.ETag.ToString());
        await HostileRequestTests.Problem(late, HttpStatusCode.PreconditionFailed, "precondition-failed");
        using var deleted = await host.Client.DeleteAsync(id, replaced.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        using var gone = await host.Client.GetAsync($"/v1/tag-classes/{id}");
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        using var twice = await host.Client.DeleteAsync(id, null);
        Assert.Equal(HttpStatusCode.NotFound, twice.StatusCode);
        Assert.Equal(versionBefore, await VersionAsync());
    }

    [Fact]
    public async Task Put_PriceOverABuiltInClass_ChangesItsCostUntilDeleted()
    {
        const string id = "slim-metal-mount-label-small", record = """{"category":"server","service":{"currency":"EUR"}}""";
        using var pristine = await host.Client.GetAsync($"/v1/tag-classes/{id}");
        var before = await host.Client.RecommendAsync(record);

        // The built-in class is there already: replaced, not created.
        using var put = await host.Client.PutAsync(id.ToUpperInvariant(), """{"price":{"typical":77,"currency":"EUR","atQuantity":100,"validUntil":"2999-12-31"},"notes":"quote 12"}""", ifMatch: pristine.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.OK, put.StatusCode);
        var shown = (await put.Content.ReadFromJsonAsync<JsonNode>())!;
        Assert.Equal(("overlaid", 77.0, 77.0, "quote 12"), ((string?)shown["origin"], (double)shown["price"]!["low"]!, (double)shown["price"]!["high"]!, (string?)shown["notes"]));
        var after = await host.Client.RecommendAsync(record);
        Assert.True((decimal)after.Candidate(id)["lifetimeCost"]!["presentValue"]! > (decimal)before.Candidate(id)["lifetimeCost"]!["presentValue"]! + 70);
        Assert.True(JsonNode.DeepEquals(before.Candidate(BuiltIn)["lifetimeCost"], after.Candidate(BuiltIn)["lifetimeCost"]));

        using var deleted = await host.Client.DeleteAsync(id, null);
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        using var again = await host.Client.GetAsync($"/v1/tag-classes/{id}");
        Assert.Equal(pristine.Headers.ETag, again.Headers.ETag);
        using var nothing = await host.Client.DeleteAsync(id, null);
        await HostileRequestTests.Problem(nothing, HttpStatusCode.Conflict, "conflict");
    }

    // IEC 60079-14 (from memory): zone 2 needs Gc, which Gb covers.
    [Fact]
    public async Task Put_CertificateOverABuiltInClass_LetsItIntoTheZoneWithACaution()
    {
        const string id = "screw-mount-hard-tag", record = """{"environment":{"hazardousArea":{"zone":"2","group":"IIB","temperatureClass":"T4"}}}""";
        var known = (await host.Client.RecommendAsync(record))["candidates"]!.AsArray().Select(c => (string)c!["tagClassId"]!).First(c => c.StartsWith(id, StringComparison.Ordinal));
        Assert.True(RejectedForTheZone(await host.Client.RecommendAsync(record), known));
        using var put = await host.Client.PutAsync(known, """{"certificate":{"number":"X 1","equipmentProtectionLevel":"Gb","group":"IIC","temperatureClass":"T6","validUntil":"2999-01-01"}}""");
        Assert.Equal(HttpStatusCode.OK, put.StatusCode);
        var warning = Assert.Single((await put.Content.ReadFromJsonAsync<JsonNode>())!["warnings"]!.AsArray())!;
        Assert.Equal("certificate-not-checked", (string?)warning["code"]);
        Assert.Contains("competent person decides", (string?)warning["text"], StringComparison.Ordinal);
        Assert.False(RejectedForTheZone(await host.Client.RecommendAsync(record), known));

        using var ended = await host.Client.PutAsync(known, """{"certificate":{"number":"X 1","equipmentProtectionLevel":"Gb","group":"IIC","temperatureClass":"T6","validUntil":"2001-01-01"}}""");
        Assert.Contains((await ended.Content.ReadFromJsonAsync<JsonNode>())!["warnings"]!.AsArray(), w => (string?)w!["code"] == "certificate-ended");
        Assert.True(RejectedForTheZone(await host.Client.RecommendAsync(record), known));
        using var deleted = await host.Client.DeleteAsync(known, null);
    }

    [Fact]
    public async Task Put_EndedQuote_GivesWayToThePlanningBandAndSaysSo()
    {
        const string id = "hard-metal-mount-mini";
        var before = await host.Client.GetFromJsonAsync<JsonNode>($"/v1/tag-classes/{id}");
        using var put = await host.Client.PutAsync(id, """{"price":{"typical":77,"currency":"EUR","atQuantity":100,"validUntil":"2001-12-31"}}""");
        var shown = (await put.Content.ReadFromJsonAsync<JsonNode>())!;
        Assert.True(JsonNode.DeepEquals(before!["price"], shown["price"]));
        Assert.Equal("quote-ended", (string?)Assert.Single(shown["warnings"]!.AsArray())!["code"]);
        using var deleted = await host.Client.DeleteAsync(id, null);
    }

    // Chu (1948), Harrington (1960): 12 mm cannot radiate like a full-size dipole.
    [Fact]
    public async Task Put_ClassBeyondTheSizeBound_IsTakenWithAWarningAndANotice()
    {
        var dot = With("size", """{"lengthMm": 12, "widthMm": 12, "heightMm": 6}""");
        dot["antenna"]!["referenceGainDbi"] = 3;
        dot["antenna"]!["referencePlateMm"] = 12;
        using var put = await host.Client.PutAsync("own-dot", dot.ToJsonString());
        Assert.Equal(HttpStatusCode.Created, put.StatusCode);
        Assert.All((await put.Content.ReadFromJsonAsync<JsonNode>())!["warnings"]!.AsArray(), w => Assert.Equal("size-bound", (string?)w!["code"]));
        var answer = await host.Client.RecommendAsync("{}");
        Assert.Contains(answer["notices"]!.AsArray(), n => (string?)n!["code"] == "size-bound" && ((string?)n["text"])!.StartsWith("own-dot claims", StringComparison.Ordinal));
        using var deleted = await host.Client.DeleteAsync("own-dot", null);
    }

    [Theory]
    [InlineData("size", """{"lengthMm": 61, "widthMm": 5, "heightMm": 1}""", "#/size")]
    [InlineData("limits", """{"temperatureMinC":-40}""", null)]
    [InlineData("attachmentMethods", """["screws"]""", "#/attachmentMethods")]
    public async Task Put_OtherConstructionOfABuiltInClass_IsRefusedNamingTheWayOut(string member, string json, string? pointer)
    {
        using var put = await host.Client.PutAsync(BuiltIn, $$"""{"notes":"x","{{member}}":{{json}}}""");
        if (pointer is null)
        {
            await HostileRequestTests.Problem(put, HttpStatusCode.BadRequest, "invalid-fields");
            return;
        }

        var problem = await HostileRequestTests.Problem(put, HttpStatusCode.Conflict, "conflict");
        Assert.Contains($"{BuiltIn}-own", problem.Detail, StringComparison.Ordinal);
        Assert.Equal(pointer, Assert.Single(problem.Errors!).Pointer);
    }

    [Fact]
    public async Task Put_BuiltInClassAsItIsWithAPrice_IsTaken()
    {
        var shown = (JsonObject)(await host.Client.GetFromJsonAsync<JsonNode>("/v1/tag-classes/nfc-label-small"))!;
        foreach (var readOnly in new[] { "origin", "warnings" })
            shown.Remove(readOnly);
        using var put = await host.Client.PutAsync("nfc-label-small", shown.ToJsonString());
        Assert.True(put.IsSuccessStatusCode, await put.Content.ReadAsStringAsync());
        using var deleted = await host.Client.DeleteAsync("nfc-label-small", null);
    }

    [Theory]
    [InlineData("attachmentMethods", """["screws","spit"]""", "invalid-fields", "#/attachmentMethods/1")]
    [InlineData("limits/ipCodes", """["IP66","IP6666"]""", "invalid-fields", "#/limits/ipCodes/1")]
    [InlineData("limits/faceMaterial", "\"moonstone\"", "invalid-fields", "#/limits/faceMaterial")]
    [InlineData("limits/abrasion", "\"some\"", "invalid-fields", "#/limits/abrasion")]
    [InlineData("antenna/referenceGainDbi", "99", "invalid-fields", "#/antenna/referenceGainDbi")]
    [InlineData("size/lengthMm", "\"90\"", "invalid-fields", "#/size/lengthMm")]
    [InlineData("life", "null", "invalid-fields", "#/life")]
    [InlineData("name", "\"a\\u0000b\"", "invalid-fields", "#/name")]
    [InlineData("price/typical", "0", "invalid-fields", "#/price/typical")]
    [InlineData("price/currency", "\"euro\"", "invalid-fields", "#/price/currency")]
    [InlineData("size/widthMm", "400", "contradictory-fields", "#/size/widthMm")]
    [InlineData("technology", "\"hf15693\"", "contradictory-fields", "#/antenna/kind")]
    [InlineData("id", "\"other\"", "contradictory-fields", "#/id")]
    public async Task Put_FaultyOwnClass_IsRefusedNamingThePlace(string path, string json, string problem, string pointer)
    {
        using var put = await host.Client.PutAsync("own-faulty", With(path, json).ToJsonString());
        var found = await HostileRequestTests.Problem(put, problem == "invalid-fields" ? HttpStatusCode.BadRequest : HttpStatusCode.UnprocessableEntity, problem);
        Assert.Contains(found.Errors!, e => e.Pointer == pointer);
    }

    [Theory]
    [InlineData("Own")]
    [InlineData("a--b")]
    [InlineData("a%2Fb")]
    [InlineData("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa")]
    public async Task Put_UnusableId_Is400(string id)
    {
        using var put = await host.Client.PutAsync(id, Own.ToJsonString());
        await HostileRequestTests.Problem(put, HttpStatusCode.BadRequest, "invalid-request");
        using var deleted = await host.Client.DeleteAsync(id, null);
        await HostileRequestTests.Problem(deleted, HttpStatusCode.NotFound, "not-found");
    }

    [Theory]
    [InlineData("\"other\"", null, HttpStatusCode.PreconditionFailed)]
    [InlineData("*", null, HttpStatusCode.PreconditionFailed)]
    [InlineData("W/\"x\"", null, HttpStatusCode.PreconditionFailed)]
    [InlineData("no tag", null, HttpStatusCode.BadRequest)]
    [InlineData(null, "no tag", HttpStatusCode.BadRequest)]
    [InlineData(null, "*", HttpStatusCode.Created)]
    public async Task Put_NewClassWithConditions_FollowsThem(string? ifMatch, string? ifNoneMatch, HttpStatusCode expected)
    {
        using var put = await host.Client.PutAsync("own-condition", Own.ToJsonString(), ifMatch, ifNoneMatch);
        Assert.Equal(expected, put.StatusCode);
        if (expected != HttpStatusCode.Created)
            return;
        using var second = await host.Client.PutAsync("own-condition", Own.ToJsonString(), ifMatch, ifNoneMatch);
        Assert.Equal(HttpStatusCode.PreconditionFailed, second.StatusCode);
        using var deleted = await host.Client.DeleteAsync("own-condition", "*");
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
    }

    // Of many that saw the same state one wins; nobody's change is lost unseen.
    [Fact]
    public async Task Put_ManyAtOnceWithTheSameTag_OneWins()
    {
        using var created = await host.Client.PutAsync("own-race", Own.ToJsonString());
        var tag = created.Headers.ETag!.ToString();
        var answers = await Task.WhenAll(Enumerable.Range(1, 8).Select(i => host.Client.PutAsync("own-race", With("applicationMinutes", $"{i}").ToJsonString(), ifMatch: tag)));
        Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
        Assert.Equal(7, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        var free = await Task.WhenAll(Enumerable.Range(1, 4).Select(i => host.Client.PutAsync($"own-free", With("applicationMinutes", $"{i}").ToJsonString())));
        Assert.All(free, a => Assert.True(a.IsSuccessStatusCode || a.StatusCode == HttpStatusCode.PreconditionFailed, $"{a.StatusCode}"));
        using var first = await host.Client.DeleteAsync("own-race", null);
        using var second = await host.Client.DeleteAsync("own-free", null);
    }

    // Whatever is put is taken or refused, and whatever is taken gets an answer.
    [Fact]
    public async Task Put_MutatedClass_IsTakenOrRefusedNeverFailed()
    {
        const string id = "own-mutated";
        await JsonMutations.Of([Encoding.UTF8.GetBytes(Own.ToJsonString())]).SampleAsync(
            async body =>
            {
                using var content = new ByteArrayContent(body);
                content.Headers.ContentType = new("application/json");
                using var put = await host.Client.PutAsync($"/v1/tag-classes/{id}", content);
                Assert.InRange((int)put.StatusCode, 200, 499);
                if (!put.IsSuccessStatusCode)
                    return;
                using var answer = await host.Client.PostAsJsonAsync("/v1/recommendations?include=all", new { category = "pump" });
                Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            },
            iter: 400, threads: 2);
        using var deleted = await host.Client.DeleteAsync(id, null);
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
    }

    private static bool RejectedForTheZone(JsonNode answer, string id) =>
        answer.Candidate(id)["rejections"]!.AsArray().Any(r => (string?)r!["family"] == "explosive-atmosphere" && (string?)r["verdict"] == "fail");

    private async Task<string> VersionAsync() => (string)(await host.Client.GetFromJsonAsync<JsonNode>("/v1/tag-classes"))!["catalogueVersion"]!;
}
