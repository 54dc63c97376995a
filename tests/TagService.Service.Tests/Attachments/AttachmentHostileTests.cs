using System.Net;
using System.Net.Http.Headers;
using System.Text;
using CsCheck;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>Requests nobody should send: refused in words, never 500. Bodies of POST with JSON are covered by the contract's own tests.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentHostileTests(RealHost host) : IClassFixture<RealHost>
{
    private static readonly byte[][] Patches =
    [
        .. new[] { """{"endReason":"fell-off","endAt":"2024-05-04T10:00:00Z","note":null}""", """{"startNotBefore":"2024-01-01T00:00:00+14:00","labourMinutes":3,"assetId":"x"}""" }
            .Select(Encoding.UTF8.GetBytes),
    ];

    private static readonly byte[][] Batches =
    [
        .. new[]
        {
            "{\"identity\":\"3476451FD40000000000AAAA\",\"assetId\":\"H\",\"endPreviousReason\":\"damaged\"}\n{\"identity\":\"3476451FD40000000000AAAB\",\"assetId\":\"H\"}\n",
        }.Select(Encoding.UTF8.GetBytes),
    ];

    private static readonly byte[][] Tables = [Encoding.UTF8.GetBytes("identity,assetId,startAt,note\r\n3476451FD40000000000AAAC,H,2024-05-04T10:00:00Z,\"a \"\"b\"\"\"\r\n3476451FD40000000000AAAD,H,,\r\n")];

    [Fact]
    public async Task Patch_MutatedBodies_IsRefusedOrAnsweredNeverFailed()
    {
        var started = await host.Client.StartedAsync(await host.Client.NewAssetAsync(), $$"""{"identity":"{{NewTag()}}"}""");
        await JsonMutations.Of(Patches).SampleAsync(body => NeverFailsAsync(HttpMethod.Patch, $"/v1/attachments/{started.Id()}", body, "application/merge-patch+json"), iter: 400, threads: 2);
    }

    [Fact]
    public async Task Batch_MutatedLines_AreRefusedOrAnsweredNeverFailed()
    {
        await JsonMutations.Of(Batches).SampleAsync(body => NeverFailsAsync(HttpMethod.Post, "/v1/attachments/batch?createAssets=true", body, "application/x-ndjson"), iter: 400, threads: 2);
        await JsonMutations.Of(Tables).SampleAsync(body => NeverFailsAsync(HttpMethod.Post, "/v1/attachments/batch?createAssets=true", body, "text/csv"), iter: 400, threads: 2);
    }

    [Theory]
    [InlineData("GET", "/v1/attachments/x", HttpStatusCode.NotFound)]
    [InlineData("GET", "/v1/attachments/00000000-0000-0000-0000-000000000000", HttpStatusCode.NotFound)]
    [InlineData("GET", "/v1/attachments/019df2a1-0a00-7b52-9c6e-2f8d1f4f6a10?include=all", HttpStatusCode.BadRequest)]
    [InlineData("GET", "/v1/assets/nobody/attachments", HttpStatusCode.NotFound)]
    [InlineData("GET", "/v1/assets/nobody/attachments?limit=0", HttpStatusCode.BadRequest)]
    [InlineData("GET", "/v1/assets/nobody/attachments?after=x", HttpStatusCode.BadRequest)]
    [InlineData("GET", "/v1/tags/pump/attachments", HttpStatusCode.BadRequest)]
    [InlineData("GET", "/v1/tags/3476451FD4000000000FFFFF/attachments", HttpStatusCode.NotFound)]
    [InlineData("GET", "/v1/tags/%00/attachments", HttpStatusCode.BadRequest)]
    [InlineData("PATCH", "/v1/attachments/x", HttpStatusCode.NotFound)]
    [InlineData("PATCH", "/v1/attachments/019df2a1-0a00-7b52-9c6e-2f8d1f4f6a10", HttpStatusCode.NotFound)]
    [InlineData("POST", "/v1/assets/nobody/attachments", HttpStatusCode.BadRequest)]
    [InlineData("DELETE", "/v1/attachments/x", HttpStatusCode.MethodNotAllowed)]
    public async Task Request_ForWhatIsNotThere_SaysSo(string method, string path, HttpStatusCode status)
    {
        using var answer = await host.Client.SendAsync(new HttpMethod(method), path, method is "GET" or "DELETE" ? null : "{}");
        Assert.Equal(status, answer.StatusCode);
    }

    [Theory]
    [InlineData("""{"assetId":null}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"identity":"3476451FD40000000000AAAA"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"assetId":"nobody"}""", HttpStatusCode.Conflict)]
    [InlineData("""{"tidHex":"E28"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"startAt":"0001-01-01T00:00:00+14:00"}""", HttpStatusCode.BadRequest)]
    [InlineData("""{"startAt":"0001-01-01T00:00:00Z"}""", HttpStatusCode.UnprocessableEntity)]
    [InlineData("""{"startNotAfter":"9999-12-31T23:59:59.9999999Z"}""", HttpStatusCode.OK)]
    [InlineData("""{"endNotBefore":"2024-01-02T00:00:00Z","endNotAfter":"2024-01-01T00:00:00Z","endReason":"not-known"}""", HttpStatusCode.UnprocessableEntity)]
    public async Task Patch_EdgesOfWhatCanBe_AreAnsweredNeverFailed(string json, HttpStatusCode status)
    {
        var started = await host.Client.StartedAsync(await host.Client.NewAssetAsync(), $$"""{"identity":"{{NewTag()}}"}""");
        using var answer = await host.Client.PatchAsync(started.Id(), json);
        Assert.True(answer.StatusCode == status, $"{(int)answer.StatusCode} {await answer.Content.ReadAsStringAsync()}");
    }

    [Fact]
    public async Task Batch_QuoteNeverClosed_AnswersWhatCameBeforeIt()
    {
        var text = $"identity,assetId\n{NewTag()},Q\n\"{new string('x', 17_000_000)}\n";
        var answers = await host.Client.BatchAsync(text, "?createAssets=true", "text/csv");
        Assert.Equal("started", (string?)answers[0]["result"]);
        Assert.Contains("never closed", (string?)answers[1]["detail"], StringComparison.Ordinal);
        Assert.Equal(2, (int)answers[^1]["summary"]!["lines"]!);
    }

    private async Task NeverFailsAsync(HttpMethod method, string path, byte[] body, string type)
    {
        using var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        using var request = new HttpRequestMessage(method, path) { Content = content };
        using var answer = await host.Client.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True((int)answer.StatusCode < 500, $"{(int)answer.StatusCode} {text}");
        if (answer.IsSuccessStatusCode && type != "application/merge-patch+json")
            Assert.Contains("\"summary\"", text, StringComparison.Ordinal);
    }
}
