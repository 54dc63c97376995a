using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Places;

namespace TagService.Api.Features.Locations;

/// <summary>DELETE /v1/locations/{id}.</summary>
internal static class DeleteLocation
{
    public static void Map(IEndpointRouteBuilder group) => group.MapDelete("/{id}", Handle)
        .WithName("deleteLocation")
        .WithSummary("Take a location away")
        .WithDescription(
            "Refused (409) while locations lie within it, read points cover it or anything else refers to it: nothing is deleted or moved along with it. "
            + "Send If-Match with the ETag you have seen.")
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="id">Id of the location; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<NoContent, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        return ItemId.IsUsable(key, null, out _)
            ? await ItemRequest.DeleteAsync(context, work, (database, ct) => DeleteAsync(database, context.Request, key, ct), cancellationToken)
            : LocationProblems.NotFound();
    }

    private static async Task<ApiProblem?> DeleteAsync(TagServiceDbContext database, HttpRequest request, string id, CancellationToken cancellationToken)
    {
        await database.LockPlacesAsync(cancellationToken);
        var row = await database.Locations.Include(l => l.Names).SingleOrDefaultAsync(l => l.Id == id, cancellationToken);
        if (row is null)
            return LocationProblems.NotFound();
        var problem = Preconditions.Refusal(request, ItemRequest.Tag(row.Version)) ?? await LocationProblems.OfUseAsync(database, id, cancellationToken);
        if (problem is not null)
            return problem;
        database.Remove(row);
        await database.SaveChangesAsync(cancellationToken);
        return null;
    }
}
