using System.IO.Compression;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using TagService.Api.Http.Problems;

namespace TagService.Service.Tests.Http;

/// <summary>Requests that are wrong as HTTP. Expected answers: RFC 9110 (status codes, Allow, Accept-Encoding), RFC 9457, RFC 7240.</summary>
public sealed class HostileRequestTests(ProbeHost host) : IClassFixture<ProbeHost>
{
    private const string Path = "/probe/records";

    [Fact]
    public async Task Post_TenMegabytes_Is413WithTheLimit()
    {
        using var known = Json(new byte[10 * 1024 * 1024]);
        using var chunked = new StreamContent(new MemoryStream(Encoding.UTF8.GetBytes("{\"category\":\"" + new string('x', 3_000_000))));
        chunked.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        using var request = new HttpRequestMessage(HttpMethod.Post, Path) { Content = chunked };
        request.Headers.TransferEncodingChunked = true;

        foreach (var response in new[] { await host.Client.PostAsync(Path, known), await host.Client.SendAsync(request) })
        {
            var problem = await Problem(response, HttpStatusCode.RequestEntityTooLarge, "body-too-large");
            Assert.Contains("1048576 bytes", problem.Detail, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("text/plain", "application/json")]
    [InlineData("application/xml", "application/json")]
    [InlineData("application/json; charset=utf-16", "UTF-8")]
    [InlineData("application/json; charset=latin1", "UTF-8")]
    [InlineData("nonsense", "application/json")]
    [InlineData("", "application/json")]
    public async Task Post_OtherMediaType_Is415NamingWhatIsRead(string type, string named)
    {
        using var content = new ByteArrayContent("{}"u8.ToArray());
        if (type.Length > 0)
            content.Headers.TryAddWithoutValidation("Content-Type", type);

        var problem = await Problem(await host.Client.PostAsync(Path, content), HttpStatusCode.UnsupportedMediaType, "unsupported-media-type");

        Assert.Contains(named, problem.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("application/json")]
    [InlineData("Application/JSON")]
    [InlineData("application/json; charset=utf-8")]
    [InlineData("application/json;charset=\"UTF-8\"")]
    [InlineData("application/vnd.example+json")]
    public async Task Post_JsonMediaType_IsRead(string type)
    {
        using var content = new ByteArrayContent("{}"u8.ToArray());
        content.Headers.TryAddWithoutValidation("Content-Type", type);

        using var response = await host.Client.PostAsync(Path, content);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Fact]
    public async Task Post_Gzip_Is415WithAcceptEncoding()
    {
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionMode.Compress, leaveOpen: true))
            gzip.Write("{}"u8);
        using var content = Json(packed.ToArray());
        content.Headers.ContentEncoding.Add("gzip");

        using var response = await host.Client.PostAsync(Path, content);

        await Problem(response, HttpStatusCode.UnsupportedMediaType, "unsupported-media-type");
        Assert.Equal("identity", response.Headers.GetValues("Accept-Encoding").Single());
    }

    [Fact]
    public async Task Post_Utf16Body_SaysItLooksLikeIt()
    {
        using var content = Json([0xFF, 0xFE, .. Encoding.Unicode.GetBytes("{}")]);

        var problem = await Problem(await host.Client.PostAsync(Path, content), HttpStatusCode.BadRequest, "malformed-body");

        Assert.Contains("UTF-16", problem.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_NoBody_Is400()
    {
        await Problem(await host.Client.PostAsync(Path, null), HttpStatusCode.BadRequest, "malformed-body");
        using var empty = Json([]);
        await Problem(await host.Client.PostAsync(Path, empty), HttpStatusCode.BadRequest, "malformed-body");
    }

    [Fact]
    public async Task Post_MillionItems_IsRefusedShortly()
    {
        var items = string.Join(',', Enumerable.Repeat("0", 500_000));
        using var content = Json(Encoding.ASCII.GetBytes($"{{\"environment\":{{\"chemicals\":[{items}]}}}}"));

        using var response = await host.Client.PostAsync(Path, content);

        await Problem(response, HttpStatusCode.BadRequest, "invalid-fields");
        Assert.True(response.Content.Headers.ContentLength < 20_000);
    }

    [Fact]
    public async Task Delete_OnPostOnlyPath_Is405WithAllow()
    {
        using var response = await host.Client.DeleteAsync(Path);

        var problem = await Problem(response, HttpStatusCode.MethodNotAllowed, "method-not-allowed");
        Assert.Equal(["POST"], response.Content.Headers.Allow);
        Assert.Contains("POST", problem.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/nowhere")]
    [InlineData("/probe/number/seven")]
    [InlineData("/v1/no%20such%2Fthing")]
    public async Task Get_UnknownPath_Is404Problem(string path)
    {
        var problem = await Problem(await host.Client.GetAsync(path), HttpStatusCode.NotFound, "not-found");

        Assert.NotNull(problem.Instance);
    }

    [Fact]
    public async Task Get_Defect_Is500WithTraceIdAndWithoutDetails()
    {
        using var response = await host.Client.GetAsync("/probe/defect");

        var text = await response.Content.ReadAsStringAsync();
        var problem = await Problem(response, HttpStatusCode.InternalServerError, "internal-error");
        Assert.DoesNotContain("secret", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        Assert.Matches("^[0-9a-f]{32}$", problem.TraceId);
    }

    [Fact]
    public async Task Get_CallersTraceContext_IsTheTraceIdOfTheProblem()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/nowhere");
        // The example of W3C Trace Context, section 3.2.
        request.Headers.Add("traceparent", "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01");

        var problem = await Problem(await host.Client.SendAsync(request), HttpStatusCode.NotFound, "not-found");

        Assert.Equal("4bf92f3577b34da6a3ce929d0e0e4736", problem.TraceId);
    }

    [Fact]
    public async Task Get_DatabaseAway_Is503WithRetryAfter()
    {
        using var response = await host.Client.GetAsync("/probe/database");

        Assert.DoesNotContain("secret", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await Problem(response, HttpStatusCode.ServiceUnavailable, "unavailable");
        Assert.True(response.Headers.RetryAfter!.Delta > TimeSpan.Zero);
    }

    [Fact]
    public async Task GetReady_DatabaseAway_Is503WhileTheProcessIsAlive()
    {
        using var ready = await host.Client.GetAsync("/health/ready");
        using var live = await host.Client.GetAsync("/health/live");

        var problem = await Problem(ready, HttpStatusCode.ServiceUnavailable, "not-ready");
        Assert.Contains("database", problem.Detail, StringComparison.Ordinal);
        Assert.DoesNotContain("127.0.0.1", problem.Detail, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, live.StatusCode);
    }

    [Theory]
    [InlineData("handling=strict")]
    [InlineData("respond-async, handling=strict")]
    [InlineData("handling=\"strict\"; x=1")]
    public async Task Post_PreferStrict_RefusesOtherMembersAndSaysSo(string prefer)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, Path) { Content = Json("""{"ASSET_NO":"17"}"""u8.ToArray()) };
        request.Headers.Add("Prefer", prefer);

        using var response = await host.Client.SendAsync(request);

        await Problem(response, HttpStatusCode.BadRequest, "invalid-fields");
        Assert.Equal("handling=strict", response.Headers.GetValues("Preference-Applied").Single());
    }

    [Fact]
    public async Task Post_OtherMembers_ArriveAtTheEndpoint()
    {
        using var content = Json("""{"category":"pump","ASSET_NO":"17"}"""u8.ToArray());

        using var response = await host.Client.PostAsync(Path, content);

        Assert.Equal(["ASSET_NO"], (await response.Content.ReadFromJsonAsync<string[]>())!);
    }

    internal static ByteArrayContent Json(byte[] body)
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }

    internal static async Task<ProblemResponse> Problem(HttpResponseMessage response, HttpStatusCode status, string name)
    {
        Assert.Equal(status, response.StatusCode);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.ToString());
        var problem = (await response.Content.ReadFromJsonAsync<ProblemResponse>())!;
        Assert.Equal($"https://tagservice.example/problems/{name}", problem.Type);
        Assert.Equal((int)status, problem.Status);
        Assert.NotEmpty(problem.Title);
        Assert.NotEmpty(problem.Detail);
        return problem;
    }
}
