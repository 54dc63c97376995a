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

namespace TagService.Api.Features.ReadPoints;

/// <summary>GET /v1/read-points/{id}.</summary>
internal static class GetReadPoint
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}", Handle)
        .WithName("getReadPoint")
        .WithSummary("One read point")
        .WithDescription("The ETag changes with any of its members; send it in If-Match when you replace or delete the read point.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => ReadPointMapping.Example)
        .WithProblems(ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="id">Id of the read point; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<ReadPointResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        return ItemId.IsUsable(key, null, out _) && await database.ReadPoints.AsNoTracking().SingleOrDefaultAsync(r => r.Id == key, cancellationToken) is { } row
            ? ItemRequest.Show(context, row.ToResponse(), row.Version)
            : ReadPointProblems.NotFound();
    }
}
