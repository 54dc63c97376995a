using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.RegisterSources;

/// <summary>GET /v1/register-sources/{name}.</summary>
internal static class GetRegisterSource
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{name}", Handle)
        .WithName("getRegisterSource")
        .WithSummary("One register source")
        .WithDescription(
            "Its settings, and in state what has come of them: the latest run, when the next one is due, how many assets it lists. The ETag has two parts, the settings' and "
            + "the state's; conditions of PUT and DELETE look at the first only.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => RegisterSourceExamples.Response)
        .WithProblems(ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="name">Name of the source; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSourceResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string name, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(name);
        if (!ItemId.IsUsable(key, null, out _) || await database.FindRegisterSourceAsync(key, cancellationToken) is not { } stored)
            return RegisterSourceMapping.NotFound();
        var tag = RegisterSourceTags.Of(stored);
        context.Response.GetTypedHeaders().ETag = tag;
        context.Response.Headers.CacheControl = "private, no-cache";
        // If-None-Match compares weakly (RFC 9110, section 13.1.2).
        return context.Request.GetTypedHeaders().IfNoneMatch.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(tag, useStrongComparison: false))
            ? TypedResults.StatusCode(StatusCodes.Status304NotModified)
            : TypedResults.Ok(stored.ToResponse());
    }
}
