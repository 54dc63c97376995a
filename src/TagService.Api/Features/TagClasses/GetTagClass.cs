using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Features.ReferenceTables;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.TagClasses;

/// <summary>GET /v1/tag-classes/{id}.</summary>
internal static class GetTagClass
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}", Handle)
        .WithName("getTagClass")
        .WithSummary("One tag class")
        .WithDescription("The ETag changes with any of its figures; send it in If-Match when you replace or delete your figures.")
        .Produces<TagClassResponse>(StatusCodes.Status200OK, "application/json")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => PutTagClass.ExampleAnswer)
        .WithProblems(ProblemTypes.NotFound);

    /// <param name="context">The request.</param>
    /// <param name="contexts">The catalogue.</param>
    /// <param name="id">Id of the class, without regard to case.</param>
    private static Task Handle(HttpContext context, [FromServices] RecommendationContextSource contexts, string id)
    {
        var snapshot = contexts.Snapshot;
        return snapshot.Find(id, snapshot.Day) is { } found
            ? CachedJson.Of(found).SendAsync(context, freshSeconds: 0)
            : ApiProblem.NotFound("No tag class has this id; /v1/tag-classes lists them all.").ExecuteAsync(context);
    }
}
