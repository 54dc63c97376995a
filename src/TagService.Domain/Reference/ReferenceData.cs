using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace TagService.Domain.Reference;

/// <summary>Reads the embedded reference tables (<c>*.data.json</c>), strictly: unknown or missing members are errors.</summary>
public static class ReferenceData
{
    /// <summary>JSON rules of the data files: camelCase members, kebab-case values, comments and trailing commas allowed.</summary>
    public static JsonSerializerOptions Options { get; } = new(JsonSerializerDefaults.Strict)
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        ReadCommentHandling = JsonCommentHandling.Skip,
        AllowTrailingCommas = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    };

    /// <summary>First 8 hexadecimal digits of the SHA-256 over all tables in order of their names, but one.</summary>
    /// <param name="except">Name of the table left out.</param>
    public static string Hash(string except)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var assembly = typeof(ReferenceData).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n != except).Order(StringComparer.Ordinal))
        {
            using var stream = assembly.GetManifestResourceStream(name)!;
            var text = new byte[stream.Length];
            stream.ReadExactly(text);
            hash.AppendData(text);
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..8];
    }

    /// <summary>All rows of one table.</summary>
    /// <typeparam name="T">The row's record.</typeparam>
    /// <param name="fileName">Name of the embedded file, for example <c>materials.data.json</c>.</param>
    /// <exception cref="InvalidOperationException">The file is absent or does not read.</exception>
    public static IReadOnlyList<T> Load<T>(string fileName)
    {
        using var stream = typeof(ReferenceData).Assembly.GetManifestResourceStream(fileName)
            ?? throw new InvalidOperationException($"Reference table {fileName} is not embedded.");
        try
        {
            return JsonSerializer.Deserialize<T[]>(stream, Options)!;
        }
        catch (JsonException e)
        {
            throw new InvalidOperationException($"Reference table {fileName} does not read: {e.Message}", e);
        }
    }
}
