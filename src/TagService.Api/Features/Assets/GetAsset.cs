using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Assets;

/// <summary>GET /v1/assets/{assetId}.</summary>
internal static class GetAsset
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{assetId}", Handle)
        .WithName("getAsset")
        .WithSummary("One asset with its stored recommendation")
        .WithDescription(
            "The ETag changes when the asset or its stored recommendation does; send it back in If-None-Match to get 304 while nothing has changed, in If-Match "
            + "of PUT and PATCH to change the asset only as you have seen it. Retired assets are shown too.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => AssetMapping.Example)
        .WithProblems(ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="assetId">The register's key; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AssetResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string assetId, CancellationToken cancellationToken)
    {
        var key = AssetReader.KeyOf(assetId);
        var stored = await database.FindAssetAsync(key, cancellationToken);
        if (stored is null)
            return ApiProblem.NotFound("No asset has this id; /v1/assets lists them all.");

        var tag = AssetTags.Of(stored);
        context.Response.GetTypedHeaders().ETag = tag;
        context.Response.Headers.CacheControl = "private, no-cache";
        return IsKnown(context.Request, tag) ? TypedResults.StatusCode(StatusCodes.Status304NotModified) : TypedResults.Ok(stored.ToResponse());
    }

    // If-None-Match compares weakly (RFC 9110, section 13.1.2).
    private static bool IsKnown(HttpRequest request, EntityTagHeaderValue tag) =>
        request.GetTypedHeaders().IfNoneMatch.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(tag, useStrongComparison: false));
}
