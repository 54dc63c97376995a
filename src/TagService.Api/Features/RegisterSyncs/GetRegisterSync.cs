using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>GET /v1/register-syncs/{id}.</summary>
internal static class GetRegisterSync
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}", Handle)
        .WithName("getRegisterSync")
        .WithSummary("One run: counts, times, what it found out of its source")
        .WithDescription("Its counts move with every page that is written. progress is the share of the rows that the source announced, where it does.")
        .WithExamples(static () => RegisterSyncMapping.Example)
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Number of the run, without unit.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSyncResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, [FromServices] TimeProvider clock, [Range(1, long.MaxValue)] long id, CancellationToken cancellationToken)
    {
        context.Response.Headers.CacheControl = "private, no-cache";
        return await database.RegisterSyncs.AsNoTracking().SingleOrDefaultAsync(s => s.Id == id, cancellationToken) is { } run
            ? TypedResults.Ok(run.ToResponse(clock.GetUtcNow()))
            : RegisterSyncMapping.NotFound();
    }
}
