using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Assets;

/// <summary>Invented assets; what a merge patch means is RFC 7396, section 2.</summary>
[Collection(TestDatabase.Collection)]
public sealed class PatchAssetTests(RealHost host) : IClassFixture<RealHost>
{
    private const string Pump =
        """
        {"category":"pump","description":"old","surface":{"material":"cast iron","thicknessMm":8},"environment":{"ipRequired":["IP66","IP68"],"temperatureMaxC":60},
         "locationName":"Hall 1","registerTag":"T-1","attributes":{"dept.name":"North","dept.no":"3","serialNo":"0001"}}
        """;

    private readonly HttpClient _client = host.Client;

    [Theory]
    // Replace, delete, add; objects are merged, lists replaced.
    [InlineData("""{"category":"hose"}""", """{"category":"hose"}""")]
    [InlineData("""{"description":null}""", """{"description":null}""")]
    [InlineData("""{"surface":{"thicknessMm":null,"coating":"paint"}}""", """{"surface":{"material":"cast iron","coating":"paint"}}""")]
    [InlineData("""{"surface":null}""", """{"surface":null}""")]
    [InlineData("""{"environment":{"ipRequired":["IP54"]}}""", """{"environment":{"ipRequired":["IP54"],"temperatureMaxC":60}}""")]
    [InlineData("""{"mounting":{"lengthMm":80,"widthMm":null}}""", """{"mounting":{"lengthMm":80}}""")]
    // The register's own fields, named either way, flat or nested.
    [InlineData("""{"attributes":{"serialNo":null,"x":1}}""", """{"attributes":{"dept.name":"North","dept.no":"3","x":"1"}}""")]
    [InlineData("""{"serialNo":"0002"}""", """{"attributes":{"dept.name":"North","dept.no":"3","serialNo":"0002"}}""")]
    [InlineData("""{"SERIALNO":"0002"}""", """{"attributes":{"dept.name":"North","dept.no":"3","SERIALNO":"0002"}}""")]
    [InlineData("""{"dept":{"no":4,"head":"Ada"}}""", """{"attributes":{"dept.name":"North","dept.no":"4","dept.head":"Ada","serialNo":"0001"}}""")]
    [InlineData("""{"dept":"South"}""", """{"attributes":{"dept":"South","serialNo":"0001"}}""")]
    [InlineData("""{"dept":null}""", """{"attributes":{"serialNo":"0001"}}""")]
    [InlineData("""{"attributes":null}""", """{"attributes":{}}""")]
    [InlineData("{}", "{}")]
    public async Task Patch_Record_MergesAndLeavesTheRest(string patch, string expectedParts)
    {
        var id = $"patch {patch}";
        using var put = await _client.PutAssetAsync(id, Pump);
        var expected = (await put.JsonAsync())["record"]!.AsObject();
        foreach (var (name, value) in JsonNode.Parse(expectedParts)!.AsObject())
        {
            expected.Remove(name);
            if (value is not null)
                expected[name] = value.DeepClone();
        }

        using var answer = await _client.PatchAssetAsync(id, patch);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(patch == "{}", answer.Headers.ETag!.Equals(put.Headers.ETag));
        var asset = await _client.GetAssetAsync(id);
        Assert.True(JsonNode.DeepEquals(expected, asset["record"]), asset["record"]!.ToJsonString());
        Assert.Equal(("Hall 1", "T-1"), ((string?)asset["locationName"], (string?)asset["registerTag"]));
    }

    [Fact]
    public async Task Patch_MirrorFields_AreSetAndCleared()
    {
        await _client.PutAssetAsync("mirror", Pump);
        var moved = await (await _client.PatchAssetAsync("mirror", """{"locationName":"Hall 2","registerTag":null,"retired":{}}""")).JsonAsync();
        Assert.Equal(("Hall 2", null), ((string?)moved["locationName"], (string?)moved["registerTag"]));
        var at = (string?)moved["retired"]!["at"];
        Assert.NotNull(at);
        var why = await (await _client.PatchAssetAsync("mirror", """{"retired":{"reason":"sold"}}""")).JsonAsync();
        Assert.Equal((at, "sold"), ((string?)why["retired"]!["at"], (string?)why["retired"]!["reason"]));
        var back = await (await _client.PatchAssetAsync("mirror", """{"retired":null}""")).JsonAsync();
        Assert.Null(back["retired"]);
        Assert.Equal("brought-back", (string?)Assert.Single(back["notices"]!.AsArray())!["code"]);
        Assert.Equal("pump", (string?)back["record"]!["category"]);
    }

    [Theory]
    [InlineData("""{"environment":{"temperatureMinC":80}}""", 422, "#/environment/temperatureMinC")]
    [InlineData("""{"environment":{"temperatureMaxC":9000}}""", 400, "#/environment/temperatureMaxC")]
    [InlineData("""{"environment":5}""", 400, "#/environment")]
    [InlineData("""{"attributes":5}""", 400, "#/attributes")]
    [InlineData("""{"thicknessMm":5}""", 400, "#/thicknessMm")]
    [InlineData("""{"surface":{"matrial":"steel"}}""", 400, "#/surface/matrial")]
    [InlineData("""{"assetId":"other"}""", 422, "#/assetId")]
    [InlineData("""{"category":"a","category":"b"}""", 400, "#/category")]
    [InlineData("""{"surface":{"material":"a","material":"b"}}""", 400, "#/surface/material")]
    [InlineData("[1]", 400, "#")]
    [InlineData("null", 400, "#")]
    [InlineData("", 400, "#")]
    public async Task Patch_ResultThatCannotBeKept_IsRefusedAndNothingChanges(string patch, int status, string pointer)
    {
        var id = $"refused {patch}";
        using var put = await _client.PutAssetAsync(id, Pump);
        using var answer = await _client.PatchAssetAsync(id, patch);
        var problem = await answer.JsonAsync();
        Assert.True(status == (int)answer.StatusCode, problem.ToJsonString());
        Assert.Contains(problem["errors"]!.AsArray(), e => (string?)e!["pointer"] == pointer);
        using var after = await _client.GetAsync($"/v1/assets/{Uri.EscapeDataString(id)}");
        Assert.Equal(put.Headers.ETag, after.Headers.ETag);
    }

    [Fact]
    public async Task Patch_StrictOrUnderConditions_IsHonoured()
    {
        using var put = await _client.PutAssetAsync("strict", Pump);
        using var strict = await _client.PatchAssetAsync("strict", """{"costCentre":"1"}""", prefer: "handling=strict");
        Assert.Equal(HttpStatusCode.BadRequest, strict.StatusCode);
        using var lenient = await _client.PatchAssetAsync("strict", """{"costCentre":"1"}""", ifMatch: put.Headers.ETag!.ToString());
        Assert.Equal("#/costCentre", (string?)Assert.Single((await lenient.JsonAsync())["notices"]!.AsArray())!["pointer"]);
        Assert.Equal(HttpStatusCode.PreconditionFailed, (await _client.PatchAssetAsync("strict", """{"costCentre":"2"}""", ifMatch: put.Headers.ETag.ToString())).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _client.PatchAssetAsync("nobody", "{}")).StatusCode);
    }

    /// <summary>Patches of different fields at once: none overwrites another's.</summary>
    [Fact]
    public async Task Patch_DifferentFieldsAtOnce_AllArrive()
    {
        await _client.PutAssetAsync("together", "{}");
        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(i => _client.PatchAssetAsync("together", $$$"""{"attributes":{"f{{{i}}}":"{{{i}}}"}}""")));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.OK, a.StatusCode));
        Assert.Equal(20, (await _client.GetAssetAsync("together"))["record"]!["attributes"]!.AsObject().Count);
    }
}
