using System.Text.Json;
using TagService.Storage.Changes;

namespace TagService.Api.Features.Assets;

/// <summary>From the stored states before and after a change to the fields that differ.</summary>
internal static class AssetHistory
{
    public static AssetHistoryEntryResponse ToResponse(this ChangeRow row)
    {
        var before = Fields(row.Before);
        var after = Fields(row.After);
        var changes = before.Keys.Union(after.Keys).Order(StringComparer.Ordinal)
            .Where(p => !before.TryGetValue(p, out var from) || !after.TryGetValue(p, out var to) || !JsonElement.DeepEquals(from, to))
            .Select(p => new FieldChangeResponse(p, Value(before, p), Value(after, p)));
        return new(row.Id, row.At, row.Actor, (Value(after, "/source") ?? Value(before, "/source"))?.GetString(), row.Action, row.TraceId, [.. changes]);
    }

    private static JsonElement? Value(Dictionary<string, JsonElement> fields, string pointer) => fields.TryGetValue(pointer, out var value) ? value : null;

    private static Dictionary<string, JsonElement> Fields(string? state)
    {
        var fields = new Dictionary<string, JsonElement>(StringComparer.Ordinal);
        if (state is null)
            return fields;
        using var document = JsonDocument.Parse(state);
        foreach (var member in document.RootElement.EnumerateObject())
        {
            switch (member.Name)
            {
                case "assetId" or "updatedAt" or "firstSeenAt":
                    break;
                case "record":
                    Add(fields, "", member.Value);
                    fields.Remove("/assetId");
                    break;
                case "retiredAt":
                    fields["/retired/at"] = member.Value.Clone();
                    break;
                case "retiredReason":
                    fields["/retired/reason"] = member.Value.Clone();
                    break;
                default:
                    fields[$"/{member.Name}"] = member.Value.Clone();
                    break;
            }
        }

        return fields;
    }

    // Objects by their members, lists as a whole: half of a list says nothing.
    private static void Add(Dictionary<string, JsonElement> fields, string pointer, JsonElement value)
    {
        if (value.ValueKind != JsonValueKind.Object)
        {
            fields[pointer] = value.Clone();
            return;
        }

        foreach (var member in value.EnumerateObject())
            Add(fields, $"{pointer}/{member.Name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)}", member.Value);
    }
}
