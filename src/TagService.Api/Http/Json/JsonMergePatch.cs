using System.Text.Json;
using System.Text.Json.Nodes;

namespace TagService.Api.Http.Json;

/// <summary>JSON Merge Patch (RFC 7396), section 2 to the letter.</summary>
public static class JsonMergePatch
{
    /// <summary>Media type of patches.</summary>
    public const string MediaType = "application/merge-patch+json";

    /// <summary>The target after the patch; objects of the target are changed in place.</summary>
    /// <param name="target">What is patched; null for JSON null.</param>
    /// <param name="patch">The patch.</param>
    public static JsonNode? Apply(JsonNode? target, JsonElement patch)
    {
        if (patch.ValueKind != JsonValueKind.Object)
            return JsonSerializer.SerializeToNode(patch);
        var result = target as JsonObject ?? [];
        foreach (var member in patch.EnumerateObject())
        {
            // Taken out first: a node has one parent only.
            result.Remove(member.Name, out var before);
            if (member.Value.ValueKind != JsonValueKind.Null)
                result[member.Name] = Apply(before, member.Value);
        }

        return result;
    }
}
