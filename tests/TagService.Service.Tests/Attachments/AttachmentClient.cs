using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;

namespace TagService.Service.Tests.Attachments;

/// <summary>Short forms of requests about attachments. Assets, identities and dates are invented.</summary>
internal static class AttachmentClient
{
    private static int _last = Random.Shared.Next(1 << 20);

    /// <summary>A GIAI-96 that no test has used: filter 3, GS1's example prefix 9521141 and a counting reference.</summary>
    public static string NewTag() => Tag(Interlocked.Increment(ref _last));

    public static string Tag(long reference) => string.Create(CultureInfo.InvariantCulture, $"3476451F{0xD400000000000000UL | (ulong)reference:X16}");

    public static string Day(int day) => new DateTime(2024, 1, 1, 0, 0, 0, DateTimeKind.Utc).AddDays(day).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    /// <summary>Thin records of new assets, by way of a batch that takes none of its lines beyond them.</summary>
    public static async Task<string> NewAssetAsync(this HttpClient client)
    {
        var asset = $"A-{Guid.NewGuid():N}";
        var line = (await client.BatchAsync($$"""{"identity":"{{NewTag()}}","assetId":"{{asset}}","endReason":"asset-retired"}""", "?createAssets=true"))[0];
        Assert.Equal("started", (string?)line["result"]);
        return asset;
    }

    public static async Task<HttpResponseMessage> SendAsync(
        this HttpClient client, HttpMethod method, string path, string? json, string? key = null, string? ifMatch = null, string type = "application/json")
    {
        using var request = new HttpRequestMessage(method, path);
        if (json is not null)
            request.Content = new StringContent(json, Encoding.UTF8, type);
        if (key is not null)
            request.Headers.Add("Idempotency-Key", key);
        if (ifMatch is not null)
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        return await client.SendAsync(request);
    }

    public static Task<HttpResponseMessage> StartAsync(this HttpClient client, string asset, string json, string? key = null) =>
        client.SendAsync(HttpMethod.Post, $"/v1/assets/{Uri.EscapeDataString(asset)}/attachments", json, key);

    public static async Task<JsonNode> StartedAsync(this HttpClient client, string asset, string json, string? key = null)
    {
        using var answer = await client.StartAsync(asset, json, key);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, $"{(int)answer.StatusCode} {text}");
        return JsonNode.Parse(text)!;
    }

    public static Task<HttpResponseMessage> PatchAsync(this HttpClient client, string id, string json, string? ifMatch = null, string? key = null, string query = "") =>
        client.SendAsync(HttpMethod.Patch, $"/v1/attachments/{id}{query}", json, key, ifMatch, "application/merge-patch+json");

    public static async Task<JsonNode> PatchedAsync(this HttpClient client, string id, string json)
    {
        using var answer = await client.PatchAsync(id, json);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{(int)answer.StatusCode} {text}");
        return JsonNode.Parse(text)!;
    }

    public static async Task<JsonArray> OfAssetAsync(this HttpClient client, string asset, string query = "") =>
        (await client.GetFromJsonAsync<JsonNode>($"/v1/assets/{Uri.EscapeDataString(asset)}/attachments{query}"))!["items"]!.AsArray();

    public static async Task<JsonArray> OfTagAsync(this HttpClient client, string identity) =>
        (await client.GetFromJsonAsync<JsonNode>($"/v1/tags/{Uri.EscapeDataString(identity)}/attachments"))!["items"]!.AsArray();

    public static async Task<List<JsonNode>> BatchAsync(this HttpClient client, string lines, string query = "", string type = "application/x-ndjson")
    {
        using var answer = await client.SendAsync(HttpMethod.Post, $"/v1/attachments/batch{query}", lines, type: type);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{(int)answer.StatusCode} {text}");
        return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonNode.Parse(l)!)];
    }

    public static string Id(this JsonNode answer) => (string)answer["attachment"]!["id"]!;
}
