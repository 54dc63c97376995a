using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;
using TagService.Domain.Profiles;

namespace TagService.Domain.Recommendations;

/// <summary>What the engine reads of a record, as one short key: a stored answer stays good for as long as the key does.</summary>
public static class EngineInput
{
    /// <summary>Characters of a key.</summary>
    public const int KeyLength = 32;

    private static readonly JsonSerializerOptions Options = new()
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(allowIntegerValues: false) },
    };

    /// <summary>
    /// Key of a record: the first 32 hexadecimal digits of the SHA-256 over its parts and those of its further fields that
    /// <see cref="ProfileMatcher"/> and <see cref="ProfileResolution"/> look at. The asset's id and all other further fields are left out.
    /// Records of equal keys get equal answers from one version of the engine and one catalogue (EngineInputTests, random changes);
    /// records of different keys may nevertheless get the same answer.
    /// </summary>
    /// <param name="record">Any record.</param>
    public static string KeyOf(AssetRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var read = new ReadParts(
            record.Category, record.Description, record.Surface, record.Mounting, record.Environment, record.Contents, record.Reading, record.Service, record.Identity,
            record.Attributes.Count == 0 ? null : [.. ProfileMatcher.AttributesRead(record.Attributes).Select(a => $"{a.Meaning} {a.Value}")],
            record.Attributes.Count == 0 ? null : [.. PrintFields(record.Attributes)]);
        return Convert.ToHexStringLower(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(read, Options)).AsSpan(0, KeyLength / 2));
    }

    // Whatever the case of the name: whether it counts is up to the dictionary's comparer, which is not part of the record.
    private static IEnumerable<string> PrintFields(IReadOnlyDictionary<string, string> attributes) => attributes
        .Where(a => a.Key.Equals(RoomPart.PrintField, StringComparison.OrdinalIgnoreCase))
        .OrderBy(a => a.Key, StringComparer.Ordinal)
        .Select(a => $"{a.Key} {a.Value}");

    private sealed record ReadParts(
        string? Category, string? Description, SurfaceRecord? Surface, MountingRecord? Mounting, EnvironmentRecord? Environment, string? Contents,
        ReadingRecord? Reading, ServiceRecord? Service, IdentityRecord? Identity, string[]? Thing, string[]? Print);
}
