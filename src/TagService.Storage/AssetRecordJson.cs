using System.Text.Json;
using System.Text.Json.Serialization;
using TagService.Domain.Recommendations;

namespace TagService.Storage;

/// <summary>
/// How an asset record is written into its jsonb column: the wire's names and values, absent parts left out.
/// Reading ignores members it does not know, because a newer program may share the database during an upgrade.
/// </summary>
public static class AssetRecordJson
{
    /// <summary>JSON rules of the column.</summary>
    public static JsonSerializerOptions Options { get; } = Create();

    /// <summary>The record as stored.</summary>
    public static string Write(AssetRecord record) => JsonSerializer.Serialize(record, Options);

    /// <summary>The record from its stored text.</summary>
    public static AssetRecord Read(string json) =>
        JsonSerializer.Deserialize<AssetRecord>(json, Options)
        ?? throw new InvalidOperationException("The stored asset record is JSON null.");

    private static JsonSerializerOptions Create()
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
        };
        options.MakeReadOnly(populateMissingResolver: true);
        return options;
    }
}
