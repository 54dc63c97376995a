using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;

namespace TagService.Service.Tests.TagClasses;

/// <summary>Short forms of requests about tag classes. All figures are invented.</summary>
internal static class TagClassClient
{
    public const string BuiltIn = "hard-metal-mount-large";

    /// <summary>A whole own class; its figures are those of the example of the OpenAPI document.</summary>
    public static JsonObject Own { get; } = (JsonObject)JsonNode.Parse(
        """
        {
          "name": "Pump-house plate tag", "technology": "uhf", "size": {"lengthMm": 90, "widthMm": 30, "heightMm": 8},
          "antenna": {"kind": "ground-plane", "referenceGainDbi": 0, "bandwidthMhz": 12, "standoffMm": 5, "thresholdDbm": -20, "referencePlateMm": 200, "offMetalPenaltyDb": 8},
          "limits": {"temperatureMinC": -40, "temperatureMaxC": 85, "peakTemperatureC": 120, "ipCodes": ["IP66", "IP68"], "immersionM": 1, "impactJ": 20,
            "abrasion": "high", "flexing": "none", "uvYears": 10, "faceMaterial": "abs", "tamperResistance": "medium", "printable": true},
          "attachmentMethods": ["screws"], "memory": {"epcBits": 128, "userBits": 0, "accessPassword": true},
          "price": {"typical": 0.01, "currency": "EUR", "atQuantity": 500}, "applicationMinutes": 0.1, "life": {"shape": 1.5, "scaleYears": 30, "equivalentFailures": 2}
        }
        """)!;

    /// <summary>The own class with one member, named by its path, put to another value.</summary>
    public static JsonObject With(string path, string json)
    {
        var copy = (JsonObject)Own.DeepClone();
        JsonNode at = copy;
        var steps = path.Split('/');
        foreach (var step in steps[..^1])
            at = at[step]!;
        at[steps[^1]] = JsonNode.Parse(json);
        return copy;
    }

    public static async Task<HttpResponseMessage> PutAsync(this HttpClient client, string id, string json, string? ifMatch = null, string? ifNoneMatch = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, $"/v1/tag-classes/{id}") { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        return await client.SendAsync(request, ifMatch, ifNoneMatch);
    }

    public static async Task<HttpResponseMessage> DeleteAsync(this HttpClient client, string id, string? ifMatch)
    {
        using var request = new HttpRequestMessage(HttpMethod.Delete, $"/v1/tag-classes/{id}");
        return await client.SendAsync(request, ifMatch, null);
    }

    /// <summary>All candidates for a record.</summary>
    public static async Task<JsonNode> RecommendAsync(this HttpClient client, string record)
    {
        using var content = new StringContent(record, Encoding.UTF8, "application/json");
        using var answer = await client.PostAsync("/v1/recommendations?include=all,no-questions", content);
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    public static JsonNode Candidate(this JsonNode answer, string id) => answer["candidates"]!.AsArray().Single(c => (string?)c!["tagClassId"] == id)!;

    private static Task<HttpResponseMessage> SendAsync(this HttpClient client, HttpRequestMessage request, string? ifMatch, string? ifNoneMatch)
    {
        if (ifMatch is not null)
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        if (ifNoneMatch is not null)
            request.Headers.TryAddWithoutValidation("If-None-Match", ifNoneMatch);
        return client.SendAsync(request);
    }
}
