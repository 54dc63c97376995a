using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace TagService.Storage.Bulk;

/// <summary>An asset's content in one canonical form: what is hashed, compared and sent to the database.</summary>
public static class AssetContent
{
    /// <summary>Longest text that becomes part of an index (asset id, category, location) or names something (register tag, source), in characters.</summary>
    public const int MaxTextLength = 500;

    /// <summary>Longest asset id in characters.</summary>
    public const int MaxAssetIdLength = 200;

    /// <summary>The record's JSON with its further fields in ordinal order of their names.</summary>
    /// <param name="asset">The asset.</param>
    public static string JsonOf(AssetToLoad asset)
    {
        var record = asset.Record;
        return AssetRecordJson.Write(record.Attributes.Count < 2
            ? record
            : record with { Attributes = new SortedDictionary<string, string>(record.Attributes.ToDictionary(), StringComparer.Ordinal) });
    }

    /// <summary>
    /// SHA-256 over all the register says and which register it is. The time of retirement is left out, because it may not be said:
    /// it is compared on its own where it is.
    /// </summary>
    /// <param name="asset">The asset.</param>
    /// <param name="source">Name of the register source.</param>
    public static byte[] HashOf(AssetToLoad asset, string source) => HashWith(asset, JsonOf(asset), source);

    /// <summary>What keeps an asset from being stored, or null: no id, a text too long for the indexes, a NUL character, which PostgreSQL has not.</summary>
    /// <param name="asset">The asset.</param>
    public static string? FaultOf(AssetToLoad asset) => FaultIn(asset, JsonOf(asset));

    internal static string? FaultIn(AssetToLoad asset, string recordJson)
    {
        var record = asset.Record;
        if (record.AssetId is not { Length: > 0 and <= MaxAssetIdLength })
            return $"An asset id has 1 to {MaxAssetIdLength} characters.";
        foreach (var (name, text) in (ReadOnlySpan<(string, string?)>)
            [("category", record.Category), ("locationName", asset.LocationName), ("registerTag", asset.RegisterTag), ("retired/reason", asset.Retired?.Reason)])
        {
            if (text?.Length > MaxTextLength)
                return $"{name} has {text.Length} characters; at most {MaxTextLength} are kept.";
            if (text?.Contains('\0', StringComparison.Ordinal) ?? false)
                return $"{name} holds a NUL character.";
        }

        // The only escape of that kind a control character U+0000 can be written as; a backslash of the text itself is doubled.
        return recordJson.Contains("\\u0000", StringComparison.Ordinal) && recordJson.Replace("\\\\", "", StringComparison.Ordinal).Contains("\\u0000", StringComparison.Ordinal)
            ? "The record holds a NUL character."
            : null;
    }

    internal static byte[] HashWith(AssetToLoad asset, string recordJson, string source) => SHA256.HashData(Encoding.UTF8.GetBytes(
        // One JSON array: no two contents have the same text.
        $"[{recordJson},{Text(asset.LocationName)},{Text(asset.RegisterTag)},{(asset.Retired is null ? "false" : "true")},{Text(asset.Retired?.Reason)},{Text(source)}]"));

    private static string Text(string? text) => text is null ? "null" : JsonSerializer.Serialize(text, AssetRecordJson.Options);
}
