using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace TagService.Service.Tests.Assets;

/// <summary>Short forms of requests about assets.</summary>
internal static class AssetClient
{
    public static Task<HttpResponseMessage> PutAssetAsync(this HttpClient client, string id, string json, string? ifMatch = null, string? ifNoneMatch = null, string? prefer = null) =>
        client.SendAsync(HttpMethod.Put, id, json, "application/json", ifMatch, ifNoneMatch, prefer);

    public static Task<HttpResponseMessage> PatchAssetAsync(this HttpClient client, string id, string json, string? ifMatch = null, string? prefer = null) =>
        client.SendAsync(HttpMethod.Patch, id, json, "application/merge-patch+json", ifMatch, null, prefer);

    public static async Task<JsonNode> GetAssetAsync(this HttpClient client, string id) => (await client.GetFromJsonAsync<JsonNode>($"/v1/assets/{Uri.EscapeDataString(id)}"))!;

    public static async Task<JsonNode> JsonAsync(this HttpResponseMessage answer) => (await answer.Content.ReadFromJsonAsync<JsonNode>())!;

    public static async Task<List<JsonElement>> PostBatchAsync(this HttpClient client, string lines, string? prefer = null, string type = "application/x-ndjson", string query = "")
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/assets/batch" + query) { Content = new StringContent(lines, Encoding.UTF8, type) };
        if (prefer is not null)
            request.Headers.Add("Prefer", prefer);
        using var answer = await client.SendAsync(request);
        answer.EnsureSuccessStatusCode();
        return [.. (await answer.Content.ReadAsStringAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonDocument.Parse(l).RootElement.Clone())];
    }

    private static async Task<HttpResponseMessage> SendAsync(
        this HttpClient client, HttpMethod method, string id, string json, string type, string? ifMatch, string? ifNoneMatch, string? prefer)
    {
        using var request = new HttpRequestMessage(method, $"/v1/assets/{Uri.EscapeDataString(id)}") { Content = new StringContent(json, Encoding.UTF8, type) };
        if (ifMatch is not null)
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        if (ifNoneMatch is not null)
            request.Headers.TryAddWithoutValidation("If-None-Match", ifNoneMatch);
        if (prefer is not null)
            request.Headers.Add("Prefer", prefer);
        return await client.SendAsync(request);
    }
}
