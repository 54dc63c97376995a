using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace TagService.Api.Http.OpenApi;

/// <summary>Makes the schemas say what is really on the wire.</summary>
internal sealed class SchemaTidying(SchemaTransformer schemas) : IOpenApiDocumentTransformer
{
    public Task TransformAsync(OpenApiDocument document, OpenApiDocumentTransformerContext context, CancellationToken cancellationToken)
    {
        var requests = new HashSet<string>(StringComparer.Ordinal);
        foreach (var media in Operations(document).SelectMany(o => o.RequestBody?.Content?.Values ?? []))
            Collect(media.Schema, document, requests);
        foreach (var (name, found) in document.Components?.Schemas ?? new Dictionary<string, IOpenApiSchema>())
        {
            if (found is not OpenApiSchema schema)
                continue;
            foreach (var property in (schema.Properties ?? new Dictionary<string, IOpenApiSchema>()).Values.OfType<OpenApiSchema>())
                Tidy(property);
            // Answers leave out members that are null, unless they say otherwise.
            if (!requests.Contains(name))
                schema.Required?.ExceptWith([.. schema.Required.Where(member => MayBeNull(schema.Properties![member]) && !schemas.IsAlwaysWritten(name, member))]);
        }

        return Task.CompletedTask;
    }

    private static IEnumerable<OpenApiOperation> Operations(OpenApiDocument document) =>
        document.Paths.Values.SelectMany(p => p.Operations?.Values.ToArray() ?? []);

    private static void Tidy(OpenApiSchema property)
    {
        // The description of a nullable reference stands inside its alternatives, where no viewer shows it.
        if (property.Description is null && property.OneOf?.OfType<OpenApiSchemaReference>().SingleOrDefault() is { } reference)
        {
            property.Description = reference.Reference.Description;
            reference.Reference.Description = null;
        }

        // MaxLength of a map counts its members.
        if (property is { MaxLength: { } members, Type: { } type } && type.HasFlag(JsonSchemaType.Object))
            (property.MaxProperties, property.MaxLength) = (members, null);
    }

    private static bool MayBeNull(IOpenApiSchema schema) =>
        schema.Type?.HasFlag(JsonSchemaType.Null) is true || (schema.OneOf?.Any(s => s.Type == JsonSchemaType.Null) ?? false);

    private static void Collect(IOpenApiSchema? schema, OpenApiDocument document, HashSet<string> names)
    {
        if (schema is OpenApiSchemaReference { Reference.Id: { } id })
        {
            if (names.Add(id) && document.Components!.Schemas!.TryGetValue(id, out var target))
                Collect(target, document, names);
            return;
        }

        foreach (var part in (schema?.Properties?.Values ?? []).Concat(schema?.OneOf ?? []).Append(schema?.Items).Append(schema?.AdditionalProperties))
        {
            if (part is not null)
                Collect(part, document, names);
        }
    }
}
