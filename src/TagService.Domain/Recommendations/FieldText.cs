using System.Text.Json;
using System.Text.Json.Nodes;
using TagService.Domain.Profiles;
using TagService.Domain.Reference;

namespace TagService.Domain.Recommendations;

/// <summary>Reads one field of a set of values as text, by its JSON pointer.</summary>
internal static class FieldText
{
    public static string Of(string pointer, ProfileValues values)
    {
        JsonNode? node = JsonSerializer.SerializeToNode(values, ReferenceData.Options);
        foreach (var member in pointer.Split('/', StringSplitOptions.RemoveEmptyEntries))
            node = node?[member];
        return node switch
        {
            null => "none",
            JsonArray { Count: 0 } => "none",
            JsonArray array => string.Join(", ", array.Select(n => n?.ToString())),
            _ => node.ToString(),
        };
    }
}
