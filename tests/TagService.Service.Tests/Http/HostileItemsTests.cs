using System.Text;
using System.Text.Json.Nodes;
using CsCheck;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Http;

/// <summary>
/// Every operation that puts an item or lists items, found in the document: nearly right bodies, unheard-of ids and parameters
/// are taken or refused, never failed. An operation added later is covered at once.
/// </summary>
[Collection(TestDatabase.Collection)]
public sealed class HostileItemsTests(RealHost host) : IClassFixture<RealHost>
{
    private static readonly string[] Texts =
    [
        "%00", "%01", "%FF", "%ED%A0%80", "%C0%80", "..", "%2E%2E", "%2F", "%252F", "'%3B%20DROP%20TABLE%20locations%3B--", "%25", "*", "%F0%9F%9A%B0", "-1", "0",
        "9223372036854775807", "9223372036854775808", "NaN", "1e999", "%E2%80%AE", "null", "%20", new string('x', 3000), string.Concat(Enumerable.Repeat("%C3%A9", 300)),
    ];

    [Fact]
    public async Task Put_MutatedExamples_AreTakenOrRefusedNeverFailed()
    {
        var operations = (await Document())["paths"]!.AsObject()
            .Select(p => (Path: p.Key, Example: p.Value!["put"]?["requestBody"]?["content"]?["application/json"]?["example"])).Where(o => o.Example is not null).ToList();
        Assert.True(operations.Count >= 5);
        foreach (var (path, example) in operations)
        {
            var address = path.Replace("{id}", "mutated", StringComparison.Ordinal);
            await JsonMutations.Of([Encoding.UTF8.GetBytes(example!.ToJsonString())]).SampleAsync(
                async body =>
                {
                    using var content = HostileRequestTests.Json(body);
                    using var put = await host.Client.PutAsync(address, content);
                    Assert.True((int)put.StatusCode is >= 200 and < 500, $"{address}: {(int)put.StatusCode} {Encoding.UTF8.GetString(body)}");
                },
                iter: 250, threads: 2);
        }
    }

    [Fact]
    public async Task Get_UnheardOfIdsAndParameters_AreAnsweredOrRefusedNeverFailed()
    {
        foreach (var (path, operations) in (await Document())["paths"]!.AsObject())
        {
            foreach (var text in Texts)
            {
                var address = path.Contains('{', StringComparison.Ordinal) ? path[..path.IndexOf('{', StringComparison.Ordinal)] + text : path;
                foreach (var parameter in operations!["get"]?["parameters"]?.AsArray().Where(p => (string?)p!["in"] == "query").Select(p => (string)p!["name"]!).Append("other") ?? [])
                    await SendAsync(HttpMethod.Get, $"{address}?{parameter}={text}");
                if (operations["delete"] is not null)
                    await SendAsync(HttpMethod.Delete, address);
            }
        }
    }

    private async Task SendAsync(HttpMethod method, string address)
    {
        using var request = new HttpRequestMessage(method, new Uri(host.Client.BaseAddress! + address[1..], new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true }));
        using var response = await host.Client.SendAsync(request);
        // /health/ready may say that the service is not ready, and says so with 503.
        Assert.True((int)response.StatusCode < 500 || address.StartsWith("/health", StringComparison.Ordinal), $"{method} {address}: {(int)response.StatusCode}");
    }

    private async Task<JsonNode> Document() => JsonNode.Parse(await host.Client.GetStringAsync("/openapi/v1.json"))!;
}
