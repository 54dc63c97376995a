using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Assets;

/// <summary>Invented assets.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AssetBatchTests(RealHost host) : IClassFixture<RealHost>
{
    private readonly HttpClient _client = host.Client;

    [Fact]
    public async Task Batch_GoodAndHostileLines_AreAnsweredInOrderAndTheRestIsKept()
    {
        string[] lines =
        [
            """{"assetId":"H-1","category":"pump","locationName":"Hall 1"}""",
            """{"category":"no id"}""",
            "",
            "not json",
            """{"assetId":"H-5","reading":{"requiredRangeM":-3}}""",
            """{"assetId":"H-6","environment":{"temperatureMinC":50,"temperatureMaxC":10}}""",
            """{"assetId":"H-7\u0000"}""",
            """{"assetId":"H-8","description":"\u0000"}""",
            $$"""{"assetId":"H-9","description":"{{new string('x', 2 * 1024 * 1024)}}"}""",
            """{"assetId":"H-10","assetId":"H-11"}""",
            """{"assetId":"H-12","attributes":{"a":"\ud800"}}""",
            $$"""{"assetId":"{{new string('x', 201)}}"}""",
            "{\"assetId\":\"H-14\"}\r",
            new string('[', 5000),
            """{"assetId":"H-16","retired":{"reason":"sold"}}""",
        ];
        var answers = await _client.PostBatchAsync(string.Join('\n', lines));
        var summary = answers[^1].GetProperty("summary");
        answers.RemoveAt(answers.Count - 1);
        Assert.Equal([1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15], answers.Select(a => a.GetProperty("line").GetInt32()));
        Assert.Equal(
            ["created", "400", "400", "400", "422", "400", "400", "413", "400", "400", "400", "created", "400", "created"],
            answers.Select(a => a.TryGetProperty("outcome", out var outcome) ? outcome.GetString() : a.GetProperty("status").GetRawText()));
        Assert.Equal((14, 3, 11), (summary.GetProperty("lines").GetInt32(), summary.GetProperty("created").GetInt32(), summary.GetProperty("refused").GetInt32()));
        Assert.Equal("Hall 1", (string?)(await _client.GetAssetAsync("H-1"))["locationName"]);
        Assert.Equal("sold", (string?)(await _client.GetAssetAsync("H-16"))["retired"]!["reason"]);
    }

    [Fact]
    public async Task Batch_SentTwice_SecondTimeIsUnchangedAndChangesAreTold()
    {
        string[] lines = [.. Enumerable.Range(0, 700).Select(i => $$"""{"assetId":"T-{{i}}","category":"kind {{i % 9}}","costCentre":"{{i % 3}}"}""")];
        Assert.Equal(700, (await _client.PostBatchAsync(string.Join('\n', lines)))[^1].GetProperty("summary").GetProperty("created").GetInt32());
        lines[5] = """{"assetId":"T-5","retired":{}}""";
        var second = await _client.PostBatchAsync(string.Join('\n', lines));
        Assert.Equal(Enumerable.Range(0, 700).Select(i => $"T-{i}"), second.SkipLast(1).Select(a => a.GetProperty("assetId").GetString()));
        Assert.Equal("changed", second[5].GetProperty("outcome").GetString());
        Assert.Equal((1, 699), (second[^1].GetProperty("summary").GetProperty("changed").GetInt32(), second[^1].GetProperty("summary").GetProperty("unchanged").GetInt32()));
        Assert.Equal(699, second[^1].GetProperty("summary").GetProperty("registerFields").GetProperty("costCentre").GetInt32());
        var back = await _client.PostBatchAsync("""{"assetId":"T-5","category":"kind 5"}""");
        Assert.Equal("brought-back", back[0].GetProperty("notices")[0].GetProperty("code").GetString());
        var strict = await _client.PostBatchAsync(lines[0], prefer: "handling=strict");
        Assert.Equal("#/costCentre", strict[0].GetProperty("errors")[0].GetProperty("pointer").GetString());
    }

    /// <summary>A line of a batch and the body of a PUT are one thing: the second finds nothing to change.</summary>
    [Fact]
    public async Task Batch_ThenPutOfTheSame_IsUnchanged()
    {
        const string rest = """ "category":"pump","surface":{"material":"steel"},"locationName":"Hall 1","registerTag":"x","own":{"b":1,"a":[1,2]},"attributes":{"z":"1","A":"2"},"retired":{"at":"2026-01-02T03:04:05.1234567+02:00","reason":"r"}}""";
        await _client.PostBatchAsync($$"""{"assetId":"same",{{rest}}""");
        var before = await _client.GetAsync("/v1/assets/same");
        using var put = await _client.PutAssetAsync("same", "{" + rest);
        Assert.Equal(HttpStatusCode.OK, put.StatusCode);
        Assert.Equal(before.Headers.ETag, put.Headers.ETag);
        using var history = await _client.GetAsync("/v1/assets/same/history");
        Assert.Single((await history.JsonAsync())["items"]!.AsArray());
    }

    /// <summary>A slow sender gets its answers while it is still sending; a raw socket, because client libraries of HTTP/1.1 read only when all is sent.</summary>
    [Fact]
    public async Task Batch_SenderWaitsForAnswers_GetsThemLineByLine()
    {
        using var socket = new TcpClient("127.0.0.1", _client.BaseAddress!.Port);
        var stream = socket.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(
            "POST /v1/assets/batch HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-ndjson\r\nTransfer-Encoding: chunked\r\n\r\n"));
        var heard = new StringBuilder();
        var buffer = new byte[4096];
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        for (var i = 1; i <= 3; i++)
        {
            var line = $$"""{"assetId":"slow-{{i}}"}""" + "\n";
            await stream.WriteAsync(Encoding.ASCII.GetBytes($"{line.Length:x}\r\n{line}\r\n"));
            while (!heard.ToString().Contains($"\"slow-{i}\"", StringComparison.Ordinal))
                heard.Append(Encoding.ASCII.GetString(buffer, 0, await stream.ReadAsync(buffer, limit.Token)));
        }

        await stream.WriteAsync(Encoding.ASCII.GetBytes("0\r\n\r\n"));
        while (!heard.ToString().Contains("summary", StringComparison.Ordinal))
            heard.Append(Encoding.ASCII.GetString(buffer, 0, await stream.ReadAsync(buffer, limit.Token)));
    }

    [Theory]
    [InlineData("application/json", null)]
    [InlineData("application/x-ndjson", "gzip")]
    public async Task Batch_WrongContent_Is415(string type, string? encoding)
    {
        using var content = new StringContent("{}");
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        if (encoding is not null)
            content.Headers.ContentEncoding.Add(encoding);
        using var answer = await _client.PostAsync("/v1/assets/batch", content);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Batch_Empty_HasOnlyItsSummary()
    {
        var answer = Assert.Single(await _client.PostBatchAsync(""));
        Assert.Equal(0, answer.GetProperty("summary").GetProperty("lines").GetInt32());
        Assert.Equal(JsonValueKind.Object, answer.GetProperty("summary").GetProperty("registerFields").ValueKind);
    }
}
