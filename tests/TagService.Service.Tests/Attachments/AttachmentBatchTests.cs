using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

[Collection(TestDatabase.Collection)]
public sealed class AttachmentBatchTests(RealHost host) : IClassFixture<RealHost>
{
    private HttpClient Client => host.Client;

    [Fact]
    public async Task Batch_GoodAndBadLines_AreAnsweredInOrderWithASummary()
    {
        var (one, two, asset) = (NewTag(), NewTag(), await Client.NewAssetAsync());
        var lines = string.Join('\n', [
            $$"""{"identity":"{{one}}","assetId":"{{asset}}"}""",
            "{\"identity\":",
            "",
            $$"""{"identity":"{{two}}","assetId":"no such asset"}""",
            $$"""{"identity":"{{two}}","assetId":"{{asset}}","tagClassId":"hard-metal-mount-larg"}""",
            $$"""{"identity":"{{one}}","assetId":"{{asset}}-b"}""",
            $$"""{"identity":"{{one}}","assetId":"{{asset}}","endReason":"fell-off","endAt":"{{Day(3)}}"}""",
            $$"""{"identity":"{{two}}","assetId":"{{asset}}","note":"{{new string('x', 70_000)}}"}""",
            $$"""{"identity":"{{one}}","assetId":"{{asset}}","startAt":"{{Day(5)}}"}""",
            $$"""{"identity":"{{two}}","assetId":"{{asset}}","startAt":"{{Day(6)}}","endPreviousReason":"damaged"}""",
        ]);
        var answers = await Client.BatchAsync(lines);
        Assert.Equal([1, 2, 4, 5, 6, 7, 8, 9, 10], answers.SkipLast(1).Select(a => (int)a["line"]!));
        Assert.Equal(
            ["started", "malformed-body", "not-found", "invalid-fields", "not-found", "ended", "body-too-large", "started", "started"],
            answers.SkipLast(1).Select(a => (string?)a["result"] ?? ((string)a["type"]!).Split('/')[^1]));
        Assert.Equal((string?)answers[0]["attachmentId"], (string?)answers[5]["attachmentId"]);
        Assert.Equal((string?)answers[7]["attachmentId"], (string?)answers[8]["previousId"]);
        Assert.Equal("""{"lines":9,"started":3,"ended":1,"known":0,"refused":5}""", answers[^1]["summary"]!.ToJsonString());
    }

    [Fact]
    public async Task Batch_DeliveredAgain_ChangesNothingEvenAfterCorrections()
    {
        var (tag, replaced, asset) = (NewTag(), NewTag(), $"A-{Guid.NewGuid():N}");
        var lines = $$"""
            {"identity":"{{replaced}}","assetId":"{{asset}}","takenOver":true}
            {"identity":"{{tag}}","assetId":"{{asset}}","startAt":"{{Day(6)}}","endPreviousReason":"damaged"}
            """;
        var first = await Client.BatchAsync(lines, "?createAssets=true");
        Assert.Equal(["started", "started"], first.SkipLast(1).Select(a => (string?)a["result"]));
        var before = await Client.OfAssetAsync(asset);
        Assert.All((await Client.BatchAsync(lines)).SkipLast(1), a => Assert.Equal("known", (string?)a["result"]));
        Assert.True(JsonNode.DeepEquals(before, await Client.OfAssetAsync(asset)));

        var other = await Client.NewAssetAsync();
        await Client.PatchedAsync((string)first[1]["attachmentId"]!, $$"""{"assetId":"{{other}}","startAt":"{{Day(3)}}","endReason":"never-happened"}""");
        await Client.PatchedAsync((string)first[0]["attachmentId"]!, """{"endReason":null}""");
        var corrected = await Client.OfAssetAsync(asset);
        Assert.All((await Client.BatchAsync(lines)).SkipLast(1), a => Assert.Equal("known", (string?)a["result"]));
        Assert.True(JsonNode.DeepEquals(corrected, await Client.OfAssetAsync(asset)));
    }

    /// <summary>RFC 4180: quotes around fields, doubled within, line ends inside; CRLF between records. A BOM is what spreadsheets write.</summary>
    [Fact]
    public async Task Batch_Csv_IsTheSameAsNdjson()
    {
        var (one, two, asset) = (NewTag(), NewTag(), $"A,\"{Guid.NewGuid():N}\"");
        var csv = "\uFEFFassetId,identity,startNotAfter,labourMinutes,takenOver,note,checkReaderKind,answeredAtM\r\n"
            + $"\"{asset.Replace("\"", "\"\"", StringComparison.Ordinal)}\",{one},{Day(4)},1.5e1,true,\"two\r\nlines, \"\"quoted\"\"\",handheld,3\r\n"
            + $"\"{asset.Replace("\"", "\"\"", StringComparison.Ordinal)}\",{two},,,,,,\r\n"
            + "\r\n"
            + $"x,{two},,ten,,,,\r\n"
            + $"x,{two}\r\n"
            + $"x,{NewTag()},,,yes,,,";
        var answers = await Client.BatchAsync(csv, "?createAssets=true", "text/csv");
        Assert.Equal([2, 4, 6, 7, 8], answers.SkipLast(1).Select(a => (int)a["line"]!));
        Assert.Equal(["started", "started", "invalid-fields", "malformed-body", "invalid-fields"], answers.SkipLast(1).Select(a => (string?)a["result"] ?? ((string)a["type"]!).Split('/')[^1]));
        Assert.Equal("#/labourMinutes", (string?)answers[2]["errors"]![0]!["pointer"]);
        Assert.Equal("#/takenOver", (string?)answers[4]["errors"]![0]!["pointer"]);
        var recorded = (await Client.OfAssetAsync(asset)).Single(a => (string?)a!["epcHex"] == one)!;
        Assert.Equal((15.0, true, "two\r\nlines, \"quoted\"", "handheld"), ((double)recorded["labourMinutes"]!, (bool)recorded["takenOver"]!, (string?)recorded["note"], (string?)recorded["checkReaderKind"]));

        var json = new JsonObject
        {
            ["assetId"] = asset, ["identity"] = one, ["startNotAfter"] = Day(4), ["labourMinutes"] = 15, ["takenOver"] = true, ["note"] = "two\r\nlines, \"quoted\"",
            ["checkReaderKind"] = "handheld", ["answeredAtM"] = 3,
        };
        Assert.Equal("known", (string?)(await Client.BatchAsync(json.ToJsonString()))[0]["result"]);
    }

    [Theory]
    [InlineData("identity;assetId\nx;y", "semicolons")]
    [InlineData("identity\tassetId\nx\ty", "tabs")]
    [InlineData("identity,asset\nx,y", "assetId")]
    [InlineData("identity,assetId,identity\nx,y,z", "twice")]
    [InlineData("identity\nx", "assetId is missing")]
    [InlineData("", "empty")]
    public async Task Batch_CsvHeaderThatCannotBeUsed_Is400SayingWhy(string csv, string named)
    {
        using var answer = await Client.SendAsync(HttpMethod.Post, "/v1/attachments/batch", csv, type: "text/csv");
        var problem = await HostileRequestTests.Problem(answer, HttpStatusCode.BadRequest, "invalid-fields");
        Assert.Contains(named, problem.Detail + string.Join(' ', problem.Errors?.Select(e => e.Accepted) ?? []), StringComparison.Ordinal);
    }

    // What an address cannot carry never becomes an asset: nobody could ask for it again (RFC 3986, section 5.2.4).
    [Theory]
    [InlineData(".")]
    [InlineData("..")]
    [InlineData("a%2Fb")]
    public async Task Batch_AssetIdThatNoAddressCarries_IsRefused(string id)
    {
        var answer = (await Client.BatchAsync($$"""{"identity":"{{NewTag()}}","assetId":"{{id}}"}""", "?createAssets=true"))[0];
        Assert.Equal(("#/assetId", id), ((string?)answer["errors"]![0]!["pointer"], (string?)answer["errors"]![0]!["value"]));
        Assert.Contains("address", (string?)answer["detail"], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("application/json", "", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("text/csv; charset=latin1", "", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("application/x-ndjson", "?answers=some", HttpStatusCode.BadRequest)]
    [InlineData("application/x-ndjson", "?createAssets=perhaps", HttpStatusCode.BadRequest)]
    public async Task Batch_OtherRequests_AreRefused(string type, string query, HttpStatusCode status)
    {
        using var content = new ByteArrayContent("{}"u8.ToArray());
        content.Headers.TryAddWithoutValidation("Content-Type", type);
        using var answer = await Client.PostAsync($"/v1/attachments/batch{query}", content);
        Assert.Equal(status, answer.StatusCode);
        if (type == "application/json")
            Assert.Contains("send application/x-ndjson or text/csv", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Batch_ManyChunks_TakeEveryLineOnceAndInOrder()
    {
        const int count = 5_500;
        var prefix = Guid.NewGuid().ToString("N");
        var first = Random.Shared.NextInt64(1L << 40);
        var lines = string.Join('\n', Enumerable.Range(0, count).Select(i => string.Create(
            CultureInfo.InvariantCulture, $$"""{"identity":"{{Tag(first + i)}}","assetId":"A-{{prefix}}-{{i / 2}}","startNotAfter":"{{Day(i % 30)}}"}""")));
        var answers = await Client.BatchAsync(lines, "?createAssets=true");
        Assert.Equal(Enumerable.Range(1, count), answers.SkipLast(1).Select(a => (int)a["line"]!));
        Assert.All(answers.SkipLast(1), a => Assert.Equal("started", (string?)a["result"]));
        var again = Assert.Single(await Client.BatchAsync(lines, "?answers=refused"));
        Assert.Equal(count, (int)again["summary"]!["known"]!);
    }
}
