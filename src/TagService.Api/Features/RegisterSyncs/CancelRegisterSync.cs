using System.ComponentModel.DataAnnotations;
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
using TagService.Storage.Changes;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>POST /v1/register-syncs/{id}/cancel.</summary>
internal static class CancelRegisterSync
{
    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/{id}/cancel", Handle)
        .WithName("cancelRegisterSync")
        .WithSummary("End a run that waits or runs")
        .WithDescription(
            "What was read before is written and stays; nothing is retired. A worker that has the run notices at its next page, which is not written. A run that was cancelled "
            + "before is answered as it is; one that ended otherwise is refused (409).")
        .WithExamples(static () => RegisterSyncMapping.Example with { State = RegisterSyncState.Cancelled, ReasonCode = "cancelled", ReasonDetail = "Cancelled by unnamed-caller." })
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.Unavailable);

    /// <param name="database">The database.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Number of the run, without unit.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSyncResponse>, ApiProblem>> Handle(
        [FromServices] TagServiceDbContext database, [FromServices] TimeProvider clock, [Range(1, long.MaxValue)] long id, CancellationToken cancellationToken)
    {
        var (now, detail) = (StoredTime.Now(clock), $"Cancelled by {ChangeOrigin.Actor}.");
        await database.CancelRegisterSyncAsync(id, detail, now, cancellationToken);
        return await database.RegisterSyncs.AsNoTracking().SingleOrDefaultAsync(s => s.Id == id, cancellationToken) switch
        {
            null => RegisterSyncMapping.NotFound(),
            { State: RegisterSyncState.Cancelled } run => TypedResults.Ok(run.ToResponse(now)),
            var run => new ApiProblem(ProblemTypes.Conflict, $"Run {id} is over: {run.State.ToString().ToLowerInvariant()}. Only a run that waits or runs can be cancelled."),
        };
    }
}
