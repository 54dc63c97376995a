using System.Collections.Concurrent;
using System.ComponentModel.DataAnnotations;
using System.Reflection;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.OpenApi;

/// <summary>What the generator leaves out of schemas: allowed values of texts, meanings of the values of enumerations.</summary>
internal sealed class SchemaTransformer : IOpenApiSchemaTransformer, IOpenApiDocumentTransformer
{
    private readonly ConcurrentDictionary<string, Type> _enums = new();
    private readonly ConcurrentDictionary<string, bool> _alwaysWritten = new();

    /// <summary>Is the member written even when it is null?</summary>
    public bool IsAlwaysWritten(string schema, string member) => _alwaysWritten.ContainsKey($"{schema}.{member}");

    public Task TransformAsync(OpenApiSchema schema, OpenApiSchemaTransformerContext context, CancellationToken cancellationToken)
    {
        var type = Nullable.GetUnderlyingType(context.JsonTypeInfo.Type) ?? context.JsonTypeInfo.Type;
        if (type.IsEnum)
            _enums.TryAdd(type.Name, type);
        // Our own converter hides from the generator that a time is a text.
        if (type == typeof(DateTimeOffset))
            schema.Type = Nullable.GetUnderlyingType(context.JsonTypeInfo.Type) is null ? JsonSchemaType.String : JsonSchemaType.String | JsonSchemaType.Null;
        if (context.JsonPropertyInfo is null && context.JsonTypeInfo.Properties.Any(p => p.IsExtensionData))
            schema.AdditionalPropertiesAllowed = true;
        if (context.JsonPropertyInfo is { AttributeProvider: { } member } property
            && member.GetCustomAttributes(typeof(JsonIgnoreAttribute), inherit: true) is [JsonIgnoreAttribute { Condition: JsonIgnoreCondition.Never }])
        {
            _alwaysWritten.TryAdd($"{property.DeclaringType.Name}.{property.Name}", true);
        }

        var attributes = context.JsonPropertyInfo?.AttributeProvider?.GetCustomAttributes(typeof(AllowedValuesAttribute), inherit: true);
        if (attributes is [AllowedValuesAttribute allowed, ..])
            schema.Enum = [.. allowed.Values.Select(v => v is null ? JsonNullSentinel.JsonNull : JsonValue.Create((string)v))];
        return Task.CompletedTask;
    }

    public Task TransformAsync(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellationToken)
    {
        foreach (var (name, type) in _enums)
        {
            if (document.Components?.Schemas?.TryGetValue(name, out var found) is true && found is OpenApiSchema schema)
                DescribeEnum(schema, type);
        }

        return Task.CompletedTask;
    }

    private static void DescribeEnum(OpenApiSchema schema, Type type)
    {
        var fields = type.GetFields(BindingFlags.Public | BindingFlags.Static);
        var values = JsonShape.Of(type).Choices.Zip(fields, (choice, field) => $"- `{choice}`: {XmlComments.OfField(field)}");
        schema.Type = JsonSchemaType.String;
        // Null belongs to the members that may be null, not to the enumeration they share.
        schema.Enum = [.. JsonShape.Of(type).Choices.Select(c => (JsonNode)JsonValue.Create(c))];
        schema.Description = $"{XmlComments.OfType(type)}\n\n{string.Join('\n', values)}";
    }
}
