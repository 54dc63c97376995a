using System.Reflection;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using TagService.Api.Http.Problems;

namespace TagService.Api.Http.OpenApi;

/// <summary>Puts the examples and the problem types into each operation.</summary>
internal sealed class OperationTransformer : IOpenApiOperationTransformer
{
    public Task TransformAsync(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        var metadata = context.Description.ActionDescriptor.EndpointMetadata;
        foreach (var problems in metadata.OfType<ProblemsOfEndpoint>())
            Describe(operation, problems);
        foreach (var examples in metadata.OfType<OperationExamples>())
            Show(operation, examples);
        if (metadata.OfType<MethodInfo>().FirstOrDefault() is { } handler)
            DescribeParameters(operation, handler);
        return Task.CompletedTask;
    }

    private static void DescribeParameters(OpenApiOperation operation, MethodInfo handler)
    {
        foreach (var parameter in operation.Parameters?.OfType<OpenApiParameter>() ?? [])
            parameter.Description ??= XmlComments.OfParameter(handler, parameter.Name!);
    }

    private static void Describe(OpenApiOperation operation, ProblemsOfEndpoint problems)
    {
        foreach (var types in problems.Types.Distinct().GroupBy(t => t.Status))
        {
            if (operation.Responses?.TryGetValue($"{types.Key}", out var response) ?? false)
                response.Description = string.Join(" ", types.Select(t => $"`{t.Name}`: {t.Meaning}"));
        }
    }

    private static void Show(OpenApiOperation operation, OperationExamples examples)
    {
        if (examples.RequestJson is { } request)
            SetExample(operation.RequestBody?.Content, request);
        if (examples.RequestCsv is { } csv && operation.RequestBody?.Content?["text/csv"] is OpenApiMediaType media)
            media.Example = csv;
        if (examples.ResponseJson is { } answer
            && (operation.Responses?.TryGetValue("200", out var ok) ?? false))
        {
            SetExample(ok.Content, answer);
        }
    }

    private static void SetExample(IDictionary<string, OpenApiMediaType>? content, System.Text.Json.Nodes.JsonNode example)
    {
        foreach (var media in content?.Values ?? [])
            media.Example = example.DeepClone();
    }
}
