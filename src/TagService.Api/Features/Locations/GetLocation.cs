using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;

namespace TagService.Api.Features.Locations;

/// <summary>GET /v1/locations/{id}.</summary>
internal static class GetLocation
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}", Handle)
        .WithName("getLocation")
        .WithSummary("One location")
        .WithDescription("The ETag changes with any of its members; send it in If-Match when you replace or delete the location.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => LocationMapping.Example)
        .WithProblems(ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="id">Id of the location; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<LocationResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        return ItemId.IsUsable(key, null, out _) && await database.Locations.AsNoTracking().SingleOrDefaultAsync(l => l.Id == key, cancellationToken) is { } row
            ? ItemRequest.Show(context, row.ToResponse(), row.Version)
            : LocationProblems.NotFound();
    }
}
