using System.Net;
using System.Net.Http.Headers;
using System.Text.Json.Nodes;

namespace TagService.Service.Tests.Http;

/// <summary>Reference tables as HTTP: validators and conditional requests of RFC 9110, sections 8.8.3 and 13.1.2.</summary>
public sealed class ReferenceTableTests(ProbeHost host) : IClassFixture<ProbeHost>
{
    public static TheoryData<string> Paths =>
    [
        "/v1/materials", "/v1/coatings", "/v1/asset-profiles", "/v1/settings", "/v1/radio-regions", "/v1/reader-kinds",
        "/v1/site-models", "/v1/tag-classes", "/v1/attachment-methods",
    ];

    [Theory]
    [MemberData(nameof(Paths))]
    public async Task Get_Table_EveryRowNamesItsSource(string path)
    {
        var items = JsonNode.Parse(await host.Client.GetStringAsync(path))!["items"]!.AsArray();

        Assert.NotEmpty(items);
        // A region's rules stand with its bands.
        Assert.All(items.SelectMany(i => i!["bands"] is JsonArray bands ? [.. bands.Select(b => b!)] : new[] { i! }), row => Assert.False(string.IsNullOrWhiteSpace((string?)(row!["source"] ?? row["rule"]))));
    }

    [Theory]
    [MemberData(nameof(Paths))]
    public async Task Get_TableAgainWithItsTag_Is304WithoutBody(string path)
    {
        using var first = await host.Client.GetAsync(path);
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.IfNoneMatch.Add(new EntityTagHeaderValue("\"other\""));
        request.Headers.IfNoneMatch.Add(new EntityTagHeaderValue(first.Headers.ETag!.Tag, isWeak: true));

        using var second = await host.Client.SendAsync(request);

        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
        Assert.Equal(first.Headers.ETag, second.Headers.ETag);
        Assert.Empty(await second.Content.ReadAsByteArrayAsync());
        Assert.NotNull(first.Headers.CacheControl!.MaxAge);
    }

    [Theory]
    [InlineData("\"other\"")]
    [InlineData("not a tag")]
    public async Task Get_TableWithAnotherTag_IsSent(string tag)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/radio-regions");
        request.Headers.TryAddWithoutValidation("If-None-Match", tag);

        using var response = await host.Client.SendAsync(request);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Fact]
    public async Task Get_Row_IsTheRowOfTheTable()
    {
        var first = JsonNode.Parse(await host.Client.GetStringAsync("/v1/tag-classes"))!["items"]![0]!;

        var row = JsonNode.Parse(await host.Client.GetStringAsync($"/v1/tag-classes/{first["id"]}"));

        Assert.True(JsonNode.DeepEquals(first, row));
    }

    [Fact]
    public async Task Get_UnknownRow_Is404()
    {
        using var response = await host.Client.GetAsync("/v1/tag-classes/no-such-class");

        await HostileRequestTests.Problem(response, HttpStatusCode.NotFound, "not-found");
    }
}
