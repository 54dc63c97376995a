using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.OpenApi;

/// <summary>Endpoint metadata: an example of request and answer. The answer is computed, so that it cannot go stale.</summary>
internal sealed record OperationExamples(Func<object?>? Request, Func<object?>? Response)
{
    /// <summary>NDJSON: the values are the lines of one text.</summary>
    public bool AsLines { get; init; }

    /// <summary>The request in CSV, for operations that read that too.</summary>
    public string? RequestCsv { get; init; }

    public JsonNode? RequestJson => Lines(Json(Request));

    public JsonNode? ResponseJson => Json(Response) is { } answer ? Lines(Rounded(answer)) : null;

    private JsonNode? Lines(JsonNode? node) =>
        AsLines && node is JsonArray lines ? string.Concat(lines.Select(l => l!.ToJsonString(WireJson.Options) + "\n")) : node;

    private static JsonNode? Json(Func<object?>? value) =>
        value?.Invoke() is { } v ? JsonSerializer.SerializeToNode(v, v.GetType(), WireJson.Options) : null;

    // Six digits: mathematics libraries differ in the last ones, and the document must not depend on the machine.
    private static JsonNode Rounded(JsonNode node)
    {
        switch (node)
        {
            case JsonObject members:
                foreach (var (name, value) in members.ToArray())
                    members[name] = value is null ? null : Rounded(value.DeepClone());
                return members;
            case JsonArray items:
                return new JsonArray([.. items.Select(i => i is null ? null : Rounded(i.DeepClone()))]);
            default:
                return node.GetValueKind() == JsonValueKind.Number && node.ToJsonString().Length > 7
                    ? JsonValue.Create(double.Parse(node.GetValue<double>().ToString("G6", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))
                    : node;
        }
    }
}

/// <summary>Adds examples to endpoints.</summary>
public static class OperationExamplesExtensions
{
    /// <summary>Example of an operation without a body.</summary>
    public static TBuilder WithExamples<TBuilder>(this TBuilder builder, Func<object?> response)
        where TBuilder : IEndpointConventionBuilder => builder.WithMetadata(new OperationExamples(null, response));

    /// <summary>Example of an operation with a body.</summary>
    public static TBuilder WithExamples<TBuilder>(this TBuilder builder, Func<object?> request, Func<object?> response)
        where TBuilder : IEndpointConventionBuilder => builder.WithMetadata(new OperationExamples(request, response));

    /// <summary>Example of an operation that takes and gives one JSON value a line.</summary>
    public static TBuilder WithLineExamples<TBuilder>(this TBuilder builder, Func<object[]> request, Func<object[]> response)
        where TBuilder : IEndpointConventionBuilder => builder.WithMetadata(new OperationExamples(request, response) { AsLines = true });

    /// <summary>The same for an operation that reads CSV too.</summary>
    public static TBuilder WithLineExamples<TBuilder>(this TBuilder builder, Func<object[]> request, string requestCsv, Func<object[]> response)
        where TBuilder : IEndpointConventionBuilder =>
        builder.WithMetadata(new OperationExamples(request, response) { AsLines = true, RequestCsv = requestCsv });
}
