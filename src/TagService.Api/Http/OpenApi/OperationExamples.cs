using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.OpenApi;

/// <summary>Endpoint metadata: an example of request and answer. The answer is computed, so that it cannot go stale.</summary>
internal sealed record OperationExamples(Func<object?>? Request, Func<object?>? Response)
{
    public JsonNode? RequestJson => Json(Request);

    public JsonNode? ResponseJson => Json(Response);

    private static JsonNode? Json(Func<object?>? value) =>
        value?.Invoke() is { } v ? JsonSerializer.SerializeToNode(v, v.GetType(), WireJson.Options) : null;
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
}
