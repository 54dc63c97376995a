using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace TagService.Api.Http.Json;

/// <summary>The one set of JSON rules of the interface.</summary>
public static class WireJson
{
    /// <summary>Deepest nesting read; the deepest request of the interface needs 4.</summary>
    public const int MaxDepth = 32;

    /// <summary>The rules, read-only.</summary>
    public static JsonSerializerOptions Options { get; } = Frozen();

    /// <summary>Sets the rules on options that belong to somebody else (the framework's own).</summary>
    public static void Apply(JsonSerializerOptions options)
    {
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.PropertyNameCaseInsensitive = false;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.AllowDuplicateProperties = false;
        options.RespectNullableAnnotations = true;
        options.RespectRequiredConstructorParameters = true;
        options.ReadCommentHandling = JsonCommentHandling.Disallow;
        options.AllowTrailingCommas = false;
        options.MaxDepth = MaxDepth;
        options.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
        // Letters of every language and quotation marks stay readable. Never put such text into HTML as it is.
        options.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        options.Converters.Add(new OffsetTimeConverter());
        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false));
    }

    private static JsonSerializerOptions Frozen()
    {
        var options = new JsonSerializerOptions { TypeInfoResolver = new DefaultJsonTypeInfoResolver() };
        Apply(options);
        options.MakeReadOnly();
        return options;
    }
}
