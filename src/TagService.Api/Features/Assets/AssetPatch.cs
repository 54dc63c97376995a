using System.Text.Json;
using System.Text.Json.Nodes;
using TagService.Api.Features.Recommendations;
using TagService.Api.Http.Json;
using TagService.Storage;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Assets;

/// <summary>
/// A merge patch on an asset in the form in which PUT takes it. The register's own fields are kept flat, as attributes; a patch that
/// names one at the top level or nested means the same field.
/// </summary>
internal static class AssetPatch
{
    private static readonly JsonShape Shape = JsonShape.Of(typeof(AssetRequest));

    /// <summary>The asset after the patch, to be read like the body of a PUT.</summary>
    /// <param name="row">The asset.</param>
    /// <param name="patch">Members of the patch.</param>
    /// <param name="strict">Leave the register's own fields at the top level, where they will be refused.</param>
    /// <param name="ownFields">Members of the patch that were taken for the register's own fields and have a value.</param>
    public static byte[] Apply(AssetRow row, IReadOnlyDictionary<string, JsonElement> patch, bool strict, out List<string> ownFields)
    {
        var document = Document(row);
        var attributes = new Dictionary<string, string>(row.Record.Attributes, StringComparer.OrdinalIgnoreCase);
        ownFields = [];
        foreach (var (name, value) in patch)
        {
            if (name == "attributes" && value.ValueKind == JsonValueKind.Object)
            {
                foreach (var member in value.EnumerateObject())
                    Set(attributes, member.Name, member.Value);
            }
            else if (name == "attributes" && value.ValueKind == JsonValueKind.Null)
            {
                attributes.Clear();
            }
            else if (!strict && IsOwnField(name))
            {
                Set(attributes, name, value);
                if (value.ValueKind != JsonValueKind.Null)
                    ownFields.Add(name);
            }
            else
            {
                document.Remove(name, out var before);
                if (value.ValueKind != JsonValueKind.Null)
                    document[name] = JsonMergePatch.Apply(before, value);
            }
        }

        // Unless the patch put something there that is no object and will be refused.
        if (!document.ContainsKey("attributes"))
            document["attributes"] = JsonSerializer.SerializeToNode(attributes, WireJson.Options);
        return JsonSerializer.SerializeToUtf8Bytes(document, WireJson.Options);
    }

    private static bool IsOwnField(string name) =>
        !Shape.Members.ContainsKey(name) && (!Shape.Places.ContainsKey(name) || AssetReader.ReadOptions.NotMisplaced.Contains(name));

    private static JsonObject Document(AssetRow row)
    {
        var document = JsonNode.Parse(AssetRecordJson.Write(row.Record))!.AsObject();
        document.Remove("attributes");
        if (row.LocationName is { } location)
            document["locationName"] = location;
        if (row.RegisterTag is { } tag)
            document["registerTag"] = tag;
        if (row.RetiredAt is { } at)
            document["retired"] = JsonSerializer.SerializeToNode(new RetirementRequest { At = at, Reason = row.RetiredReason }, WireJson.Options);
        return document;
    }

    // Flat names stand for nested members: a value takes the place of all below its name, an object is merged.
    private static void Set(Dictionary<string, string> attributes, string name, JsonElement value)
    {
        attributes.Remove(name);
        if (value.ValueKind == JsonValueKind.Object)
        {
            foreach (var member in value.EnumerateObject())
                Set(attributes, $"{name}.{member.Name}", member.Value);
            return;
        }

        foreach (var below in attributes.Keys.Where(k => k.StartsWith(name + ".", StringComparison.OrdinalIgnoreCase)).ToList())
            attributes.Remove(below);
        RecommendationMapping.Flatten(attributes, name, value);
    }
}
