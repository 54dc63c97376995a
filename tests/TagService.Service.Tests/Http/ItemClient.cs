using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;

namespace TagService.Service.Tests.Http;

/// <summary>Short forms of requests about items that callers name and keep: locations, read points, tag batches, numbering rules.</summary>
internal static class ItemClient
{
    public static async Task<HttpResponseMessage> PutItemAsync(this HttpClient client, string path, string json, string? ifMatch = null, string? ifNoneMatch = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, path) { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        return await client.SendAsync(request, ifMatch, ifNoneMatch);
    }

    public static async Task<HttpResponseMessage> DeleteItemAsync(this HttpClient client, string path, string? ifMatch = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, path);
        return await client.SendAsync(request, ifMatch, null);
    }

    public static async Task<HttpResponseMessage> GetItemAsync(this HttpClient client, string path, string? ifNoneMatch = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        return await client.SendAsync(request, null, ifNoneMatch);
    }

    /// <summary>Puts items that the test needs and expects to be taken.</summary>
    public static async Task GivenAsync(this HttpClient client, params (string Path, string Json)[] items)
    {
        foreach (var (path, json) in items)
        {
            using var put = await client.PutItemAsync(path, json);
            Assert.True(put.IsSuccessStatusCode, $"{path}: {await put.Content.ReadAsStringAsync()}");
        }
    }

    public static async Task<JsonNode> JsonAsync(this HttpResponseMessage response) => (await response.Content.ReadFromJsonAsync<JsonNode>())!;

    /// <summary>A member of all items of a list, page after page along the Link headers.</summary>
    public static async Task<IReadOnlyList<JsonNode>> ListAsync(this HttpClient client, string path)
    {
        var items = new List<JsonNode>();
        for (string? next = path; next is not null;)
        {
            using var page = await client.GetAsync(next);
            Assert.True(page.IsSuccessStatusCode, $"{next}: {await page.Content.ReadAsStringAsync()}");
            items.AddRange((await page.JsonAsync())["items"]!.AsArray()!);
            next = page.Headers.TryGetValues("Link", out var links) ? links.Single().Split('>')[0][1..] : null;
        }

        return items;
    }

    public static async Task<string[]> IdsAsync(this HttpClient client, string path) => [.. (await client.ListAsync(path)).Select(i => (string)i["id"]!)];

    private static Task<HttpResponseMessage> SendAsync(this HttpClient client, HttpRequestMessage request, string? ifMatch, string? ifNoneMatch)
    {
        if (ifMatch is not null)
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        if (ifNoneMatch is not null)
            request.Headers.TryAddWithoutValidation("If-None-Match", ifNoneMatch);
        return client.SendAsync(request);
    }
}
