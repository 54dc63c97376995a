using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using TagService.Api.Features.Recommendations;
using TagService.Api.Http.Json;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Recommendations;

/// <summary>A single answer on the wire. Invented records.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RecommendTagClassTests(RealHost host) : IClassFixture<RealHost>
{
    private const string Body = """{"assetId":"A-1","category":"Größe \"5\" pump","MACHINE_NO":"17/4 🚰"}""";

    // RFC 9110, section 8.6: a server that knows the length says it.
    [Theory]
    [InlineData("")]
    [InlineData("?include=all,no-questions")]
    public async Task Answer_OneRecord_IsTheContractInOneBodyOfKnownLength(string query)
    {
        using var request = Request(query);
        using var answer = await host.Client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("application/json; charset=utf-8", answer.Content.Headers.ContentType!.ToString());
        var length = answer.Content.Headers.ContentLength;

        var written = await answer.Content.ReadAsByteArrayAsync();

        Assert.Equal(written.Length, length);
        var record = JsonSerializer.Deserialize<RecommendationRequest>(Body, WireJson.Options)!;
        var options = query.Length == 0 ? new RecommendationOptions() : new(IncludeAll: true, IncludeQuestions: false);
        var expected = RecommendationEngine.Recommend(record.ToAssetRecord(), options).ToResponse(record.OwnFieldNotices());
        Assert.Contains(expected.Notices, n => n.Pointer == "#/MACHINE_NO");
        Assert.Equal(JsonSerializer.Serialize(expected, WireJson.Options), Encoding.UTF8.GetString(written));
    }

    [Fact]
    public async Task Answer_CallerGoesAwayWhileItIsSent_LeavesTheServiceAlive()
    {
        using (var socket = new TcpClient("127.0.0.1", host.Client.BaseAddress!.Port))
        {
            // Closed with a reset, in the middle of answers that nobody reads.
            socket.Client.LingerState = new(true, 0);
            var request = $"POST /v1/recommendations?include=all HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 2\r\n\r\n{{}}";
            await socket.GetStream().WriteAsync(Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat(request, 40))));
            Assert.True(await socket.GetStream().ReadAsync(new byte[1000]) > 0);
        }

        using var after = Request("");
        Assert.Equal(HttpStatusCode.OK, (await host.Client.SendAsync(after)).StatusCode);
    }

    private static HttpRequestMessage Request(string query) =>
        new(HttpMethod.Post, $"/v1/recommendations{query}") { Content = new StringContent(Body, Encoding.UTF8, "application/json") };
}
