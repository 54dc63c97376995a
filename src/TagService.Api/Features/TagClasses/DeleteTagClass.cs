using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Problems;
using TagService.Domain.TagClasses;

namespace TagService.Api.Features.TagClasses;

/// <summary>DELETE /v1/tag-classes/{id}.</summary>
internal static class DeleteTagClass
{
    public static void Map(IEndpointRouteBuilder group) => group.MapDelete("/{id}", Handle)
        .WithName("deleteTagClass")
        .WithSummary("Take away your own class, or your own figures over a built-in one")
        .WithDescription(
            "An own class is gone; a built-in class is again as it comes with the service. Measured ranges stay and count again if the class comes back. "
            + "Send If-Match with the ETag you have seen.")
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="store">Where overlays are kept.</param>
    /// <param name="id">Id of the class.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<NoContent, ApiProblem>> Handle(
        HttpContext context, [FromServices] OverlayStore store, string id, CancellationToken cancellationToken)
    {
        var key = TagClassCatalogue.BuiltIn.Find(id)?.Id ?? id;
        return await store.DeleteAsync(context.Request, key, cancellationToken) is { } problem ? problem : TypedResults.NoContent();
    }
}
