using System.Buffers;
using System.Security.Cryptography;
using System.Text.Json;
using TagService.Domain.Words;

namespace TagService.Storage.Bulk;

/// <summary>An asset's content in one canonical form: what is hashed, compared and sent to the database.</summary>
public static class AssetContent
{
    /// <summary>Longest text that becomes part of an index (category, location) or names something (register tag, source), in characters.</summary>
    public const int MaxTextLength = 500;

    /// <summary>Longest asset id in characters.</summary>
    public const int MaxAssetIdLength = 200;

    // As AssetRecordJson escapes; what the writer gets is an object in an object, known to be well formed.
    private static readonly JsonWriterOptions WriterOptions = new() { Encoder = AssetRecordJson.Options.Encoder, SkipValidation = true };

    private const string NulFault = "The record holds a NUL character.";

    [ThreadStatic]
    private static (ArrayBufferWriter<byte> Text, Utf8JsonWriter Json)? _scratch;

    /// <summary>
    /// SHA-256 over all the register says and which register it is. The time of retirement is left out, because it may not be said:
    /// it is compared on its own where it is.
    /// </summary>
    /// <param name="asset">The asset.</param>
    /// <param name="source">Name of the register source.</param>
    public static byte[] HashOf(AssetToLoad asset, string source)
    {
        var (text, json) = Scratch();
        // One JSON array: no two contents have the same text.
        json.WriteStartArray();
        JsonSerializer.Serialize(json, Canonical(asset), AssetRecordJson.Options);
        json.WriteStringValue(asset.LocationName);
        json.WriteStringValue(asset.RegisterTag);
        json.WriteBooleanValue(asset.Retired is not null);
        json.WriteStringValue(asset.Retired?.Reason);
        json.WriteStringValue(source);
        json.WriteEndArray();
        json.Flush();
        return SHA256.HashData(text.WrittenSpan);
    }

    /// <summary>What keeps an asset from being stored, or null: no id or one that no address can carry, a text too long for the indexes, a NUL character, which PostgreSQL has not.</summary>
    /// <param name="asset">The asset.</param>
    public static string? FaultOf(AssetToLoad asset)
    {
        if (TextFaultOf(asset) is { } fault)
            return fault;
        var (text, json) = Scratch();
        JsonSerializer.Serialize(json, asset.Record, AssetRecordJson.Options);
        json.Flush();
        return HoldsNul(text.WrittenSpan) ? NulFault : null;
    }

    /// <summary>The same without a look into the whole record, which costs as much as writing it.</summary>
    internal static string? TextFaultOf(AssetToLoad asset) => asset.Record.AssetId is not { Length: > 0 and <= MaxAssetIdLength } id
        ? $"An asset id has 1 to {MaxAssetIdLength} characters."
        : ResourceId.FaultOf(id) is { } unreachable ? $"assetId: {unreachable}"
        : TextFault("category", asset.Record.Category) ?? TextFault("locationName", asset.LocationName)
            ?? TextFault("registerTag", asset.RegisterTag) ?? TextFault("retired/reason", asset.Retired?.Reason);

    /// <summary>The record's JSON for the column, in UTF-8, with its further fields in ordinal order of their names.</summary>
    /// <exception cref="ArgumentException">It holds a NUL character.</exception>
    internal static byte[] JsonOf(AssetToLoad asset)
    {
        var json = JsonSerializer.SerializeToUtf8Bytes(Canonical(asset), AssetRecordJson.Options);
        return HoldsNul(json) ? throw new ArgumentException($"Asset {asset.Record.AssetId}: {NulFault}", nameof(asset)) : json;
    }

    private static Domain.Recommendations.AssetRecord Canonical(AssetToLoad asset)
    {
        var attributes = asset.Record.Attributes;
        string? last = null;
        foreach (var (name, _) in attributes)
        {
            if (last is not null && string.CompareOrdinal(last, name) >= 0)
                return asset.Record with { Attributes = new SortedDictionary<string, string>(attributes.ToDictionary(), StringComparer.Ordinal) };
            last = name;
        }

        return asset.Record;
    }

    private static string? TextFault(string name, string? text)
    {
        if (text?.Length > MaxTextLength)
            return $"{name} has {text.Length} characters; at most {MaxTextLength} are kept.";
        return text?.Contains('\0', StringComparison.Ordinal) ?? false ? $"{name} holds a NUL character." : null;
    }

    // Written as the escape \u0000; after a backslash of the text itself, which is doubled, the same letters are only letters.
    private static bool HoldsNul(ReadOnlySpan<byte> json)
    {
        for (var at = json.IndexOf("\\u0000"u8); at >= 0;)
        {
            var backslashes = at + 1 - (json[..(at + 1)].LastIndexOfAnyExcept((byte)'\\') + 1);
            if (backslashes % 2 == 1)
                return true;
            var next = json[(at + 1)..].IndexOf("\\u0000"u8);
            at = next < 0 ? -1 : at + 1 + next;
        }

        return false;
    }

    private static (ArrayBufferWriter<byte> Text, Utf8JsonWriter Json) Scratch()
    {
        if (_scratch is not { } scratch)
        {
            var text = new ArrayBufferWriter<byte>(4096);
            _scratch = scratch = (text, new(text, WriterOptions));
        }

        scratch.Text.ResetWrittenCount();
        scratch.Json.Reset();
        return scratch;
    }
}
