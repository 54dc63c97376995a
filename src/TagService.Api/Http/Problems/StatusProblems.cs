using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Template;
using Microsoft.Extensions.DependencyInjection;
using TagService.Api.Http.Json;

namespace TagService.Api.Http.Problems;

/// <summary>Problems for answers that the framework gives with a bare status code.</summary>
internal static class StatusProblems
{
    public static ApiProblem Of(int status, HttpContext context)
    {
        var request = context.Request;
        return status switch
        {
            StatusCodes.Status404NotFound => new(ProblemTypes.NotFound, $"Nothing is at {JsonText.Clip(request.Path)}."),
            StatusCodes.Status405MethodNotAllowed => new(
                ProblemTypes.MethodNotAllowed, $"{JsonText.Clip(request.Method)} is not available here; available: {context.Response.Headers.Allow}."),
            StatusCodes.Status408RequestTimeout => new(ProblemTypes.RequestTimeout, "The body arrived too slowly."),
            StatusCodes.Status413PayloadTooLarge => new(ProblemTypes.BodyTooLarge, TooLarge(context)),
            StatusCodes.Status415UnsupportedMediaType => new(ProblemTypes.UnsupportedMediaType, MediaType(request)),
            StatusCodes.Status503ServiceUnavailable => new(ProblemTypes.Unavailable, "The service is overloaded or stopping.") { RetryAfterSeconds = 5 },
            >= 500 => new(ProblemTypes.InternalError, "The service failed."),
            _ => new(ProblemTypes.InvalidRequest, "The request cannot be read as HTTP (RFC 9112) or one of its parameters is not of its type."),
        };
    }

    private static string TooLarge(HttpContext context) =>
        context.Features.Get<IHttpMaxRequestBodySizeFeature>()?.MaxRequestBodySize is { } limit
            ? string.Create(CultureInfo.InvariantCulture, $"The body is larger than {limit} bytes, the limit of the server.")
            : "The body is too large.";

    // Routing has put an endpoint of its own in the place of the one that was asked for, so that one is looked up by its path.
    private static string MediaType(HttpRequest request)
    {
        var accepted = request.HttpContext.RequestServices.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<IHttpMethodMetadata>()?.HttpMethods.Contains(request.Method) ?? false)
            .Where(e => new TemplateMatcher(new(e.RoutePattern), []).TryMatch(request.Path, []))
            // A path without parameters before one that has them.
            .OrderBy(e => e.RoutePattern.Parameters.Count)
            .Select(e => e.Metadata.GetMetadata<IAcceptsMetadata>()?.ContentTypes)
            .FirstOrDefault(t => t is { Count: > 0 });
        var types = accepted is null ? "application/json" : string.Join(" or ", accepted);
        return $"Content-Type {JsonText.Clip(request.ContentType ?? "(none)")} is not read here; send {types}.";
    }
}
