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
            """{"assetId":".."}""",
            """{"assetId":"a%2Fb"}""",
        ];
        var answers = await _client.PostBatchAsync(string.Join('\n', lines));
        var summary = answers[^1].GetProperty("summary");
        answers.RemoveAt(answers.Count - 1);
        Assert.Equal([1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17], answers.Select(a => a.GetProperty("line").GetInt32()));
        Assert.Equal(
            ["created", "400", "400", "400", "422", "400", "400", "413", "400", "400", "400", "created", "400", "created", "400", "400"],
            answers.Select(a => a.TryGetProperty("outcome", out var outcome) ? outcome.GetString() : a.GetProperty("status").GetRawText()));
        Assert.Equal((16, 3, 13), (summary.GetProperty("lines").GetInt32(), summary.GetProperty("created").GetInt32(), summary.GetProperty("refused").GetInt32()));
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

    /// <summary>RFC 4180: quoted fields hold commas, quotes doubled and line breaks; the header names members by their path.</summary>
    [Fact]
    public async Task Batch_Csv_IsTheSameAsLinesOfJson()
    {
        const string csv = "assetId,category,surface.material,environment.ipRequired,mounting.allowDrilling,reading.requiredRangeM,locationName,Cost centre,retired.reason\r\n"
            + "C-1,\"pump, \"\"old\"\"\r\nin two lines\",steel,IP66;IP68,true,2.5,Hall 1,4711,\r\n"
            + "C-2,,,,,,,,sold\r\n"
            + "C-3,pump,steel,,perhaps,,,,\r\n"
            + "C-4,too,few\r\n";
        var answers = await _client.PostBatchAsync(csv, type: "text/csv");
        Assert.Equal(
            ["created", "created", "400", "400"],
            answers.SkipLast(1).Select(a => a.TryGetProperty("outcome", out var outcome) ? outcome.GetString() : a.GetProperty("status").GetRawText()));
        // Lines of the file, as an editor counts them.
        Assert.Equal([2, 4, 5, 6], answers.SkipLast(1).Select(a => a.GetProperty("line").GetInt32()));
        Assert.Equal("#/mounting/allowDrilling", answers[2].GetProperty("errors")[0].GetProperty("pointer").GetString());
        Assert.Equal(1, answers[^1].GetProperty("summary").GetProperty("registerFields").GetProperty("Cost centre").GetInt32());

        var again = await _client.PostBatchAsync(
            """
            {"assetId":"C-1","category":"pump, \"old\"\r\nin two lines","surface":{"material":"steel"},"environment":{"ipRequired":["IP66","IP68"]},"mounting":{"allowDrilling":true},"reading":{"requiredRangeM":2.5},"locationName":"Hall 1","Cost centre":"4711"}
            {"assetId":"C-2","retired":{"reason":"sold"}}
            """);
        Assert.Equal(2, again[^1].GetProperty("summary").GetProperty("unchanged").GetInt32());
    }

    [Theory]
    [InlineData("assetId;category\r\nA;b\r\n", "semicolons")]
    [InlineData("category\r\npump\r\n", "assetId is missing")]
    [InlineData("assetId,AssetId\r\na,b\r\n", "twice")]
    [InlineData("assetId,surface.materail\r\na,b\r\n", "materail")]
    [InlineData("", "assetId")]
    public async Task Batch_CsvHeaderThatCannotBeUsed_IsRefusedAsAWhole(string csv, string says)
    {
        using var answer = await _client.PostAsync("/v1/assets/batch", new StringContent(csv, Encoding.UTF8, "text/csv"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(says, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    /// <summary>A library of HTTP/1.1 that sends all before it reads: more answers than any buffer on the way would hold.</summary>
    [Fact]
    public async Task Batch_AnswersRefused_TellsOnlyOfProblemsAndNotices()
    {
        await _client.PostBatchAsync("""{"assetId":"Q-7","retired":{}}""");
        var lines = string.Join('\n', Enumerable.Range(0, 30_000).Select(i => i == 20_000 ? "{}" : $$"""{"assetId":"Q-{{i}}"}"""));
        var answers = await _client.PostBatchAsync(lines, query: "?answers=refused");
        Assert.Equal(3, answers.Count);
        Assert.Equal("Q-7", answers[0].GetProperty("assetId").GetString());
        Assert.Equal(20_001, answers[1].GetProperty("line").GetInt32());
        Assert.Equal((29_998, 1), (answers[2].GetProperty("summary").GetProperty("created").GetInt32(), answers[2].GetProperty("summary").GetProperty("refused").GetInt32()));
        using var wrong = await _client.PostAsync("/v1/assets/batch?answers=some", new StringContent("", Encoding.UTF8, "application/x-ndjson"));
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
    }

    /// <summary>Assets known only by the tags recorded on them are assets like all others when the register comes to tell of them.</summary>
    [Fact]
    public async Task Batch_OfAssetThatWasKnownByItsTagOnly_FillsItAndKeepsItsHistory()
    {
        using var pairs = await _client.PostAsync(
            "/v1/attachments/batch?createAssets=true",
            new StringContent("""{"assetId":"thin-1","identity":"urn:epc:id:giai:9521141.77001"}""", Encoding.UTF8, "application/x-ndjson"));
        pairs.EnsureSuccessStatusCode();
        Assert.Equal("attachments", (string?)(await _client.GetAssetAsync("thin-1"))["source"]);
        var answers = await _client.PostBatchAsync("""{"assetId":"thin-1","category":"pump"}""");
        Assert.Equal("changed", answers[0].GetProperty("outcome").GetString());
        var asset = await _client.GetAssetAsync("thin-1");
        Assert.Equal(("push", "pump"), ((string?)asset["source"], (string?)asset["record"]!["category"]));
        using var history = await _client.GetAsync("/v1/assets/thin-1/history");
        Assert.Equal(2, (await history.JsonAsync())["items"]!.AsArray().Count);
    }
}
