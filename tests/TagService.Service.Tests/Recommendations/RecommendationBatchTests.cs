using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Recommendations;

/// <summary>Invented records; what is checked is the form of the stream, not the advice.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RecommendationBatchTests(TestDatabase database) : IAsyncLifetime
{
    private readonly RealHost _host = new(database);

    public Task InitializeAsync() => _host.InitializeAsync();

    public Task DisposeAsync() => _host.DisposeAsync();

    [Fact]
    public async Task Batch_GoodAndBadLines_AreAnsweredInOrderWithTheirNumbers()
    {
        var answers = await PostAsync(
            """
            {"assetId":"A-1","category":"laptop"}
            {"assetId":"A-2","reading":{"requiredRangeM":-3}}

            not json
            {"assetId":"A-5","environment":{"temperatureMinC":50,"temperatureMaxC":10}}
            {"assetId":"A-6"}
            """);
        Assert.Equal([1, 2, 4, 5, 6], answers.Select(a => a.GetProperty("line").GetInt32()));
        Assert.Equal("A-1", answers[0].GetProperty("assetId").GetString());
        Assert.Equal(400, answers[1].GetProperty("status").GetInt32());
        Assert.Equal("#/reading/requiredRangeM", answers[1].GetProperty("errors")[0].GetProperty("pointer").GetString());
        Assert.Equal(400, answers[2].GetProperty("status").GetInt32());
        Assert.Equal(422, answers[3].GetProperty("status").GetInt32());
        Assert.Equal("A-6", answers[4].GetProperty("assetId").GetString());
    }

    [Fact]
    public async Task Batch_ManyLines_KeepTheirOrder()
    {
        const int lines = 700;
        var answers = await PostAsync(string.Join('\n', Enumerable.Range(1, lines).Select(i => $$"""{"assetId":"A-{{i}}","category":"pump"}""")));
        Assert.Equal(Enumerable.Range(1, lines).Select(i => $"A-{i}"), answers.Select(a => a.GetProperty("assetId").GetString()));
    }

    [Fact]
    public async Task Batch_LineBeyondTheLimit_IsRefusedAndTheRestGoesOn()
    {
        var answers = await PostAsync($$"""
            {"assetId":"long","description":"{{new string('x', 3 * 1024 * 1024)}}"}
            {"assetId":"A-2"}
            """);
        Assert.Equal(413, answers[0].GetProperty("status").GetInt32());
        Assert.Equal("A-2", answers[1].GetProperty("assetId").GetString());
    }

    [Fact]
    public async Task Batch_SameRecord_SaysWhatTheSingleOperationSays()
    {
        const string record = """{"category":"ladder","reading":{"requiredRangeM":1,"region":"DE"}}""";
        var batch = (await PostAsync(record))[0].GetProperty("candidates");
        using var content = new StringContent(record, Encoding.UTF8, "application/json");
        var single = await _host.Client.PostAsync("/v1/recommendations?include=no-questions", content);
        using var document = JsonDocument.Parse(await single.Content.ReadAsStringAsync());
        Assert.Equal(document.RootElement.GetProperty("candidates").GetRawText(), batch.GetRawText());
    }

    [Theory]
    [InlineData("application/json", "", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("application/x-ndjson", "?include=everything", HttpStatusCode.BadRequest)]
    public async Task Batch_WrongRequest_IsAProblem(string type, string query, HttpStatusCode expected)
    {
        using var content = new StringContent("{}");
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        var answer = await _host.Client.PostAsync($"/v1/recommendations/batch{query}", content);
        Assert.Equal(expected, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Batch_CallerGoesAway_TheServiceStaysUp()
    {
        // A raw socket, because a client library of HTTP/1.1 reads the answer only when all is sent.
        using (var socket = new TcpClient("127.0.0.1", _host.Client.BaseAddress!.Port))
        {
            var stream = socket.GetStream();
            await stream.WriteAsync(Encoding.ASCII.GetBytes(
                "POST /v1/recommendations/batch HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-ndjson\r\nTransfer-Encoding: chunked\r\n\r\n"));
            for (var i = 0; i < 50; i++)
                await stream.WriteAsync(Encoding.ASCII.GetBytes("15\r\n{\"category\":\"laptop\"}\r\n0002\r\n\r\n\r\n"));
            Assert.True(await stream.ReadAsync(new byte[1000]) > 0);
        }

        Assert.Equal(HttpStatusCode.OK, (await _host.Client.GetAsync("/health/live")).StatusCode);
        Assert.Single(await PostAsync("{}"));
    }

    [Fact]
    public async Task Parameter_ThatDoesNotRead_IsNamedWithItsValue()
    {
        var answer = await _host.Client.GetAsync("/v1/assets?limit=abc");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
        var error = problem.RootElement.GetProperty("errors")[0];
        Assert.Equal("limit", error.GetProperty("pointer").GetString());
        Assert.Equal("abc", error.GetProperty("value").GetString());
        Assert.Equal("a whole number", error.GetProperty("accepted").GetString());
    }

    private async Task<List<JsonElement>> PostAsync(string lines)
    {
        using var content = new StringContent(lines);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/x-ndjson");
        var answer = await _host.Client.PostAsync("/v1/recommendations/batch", content);
        answer.EnsureSuccessStatusCode();
        var text = await answer.Content.ReadAsStringAsync();
        return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonDocument.Parse(l).RootElement.Clone())];
    }
}
