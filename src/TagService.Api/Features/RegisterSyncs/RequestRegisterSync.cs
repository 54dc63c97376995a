using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using TagService.Api.Features.RegisterSources;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>POST /v1/register-syncs.</summary>
internal static class RequestRegisterSync
{
    private const int Attempts = 5;
    private const int MostNames = 40;

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("", Handle)
        .WithName("requestRegisterSync")
        .WithSummary("Ask for a run over a register source")
        .WithDescription(
            "A worker takes it as soon as one is free; 202 with the address of the run. A source has one run at a time: while one waits or runs, that one is answered with 200 and "
            + "the notice already-open. Disabled sources can be run by request too. A run that would retire more assets than the source's mostMissingShare is held; asking again "
            + "with acceptMissing says that they are gone.")
        .Accepts<RegisterSyncRequest>("application/json")
        .Produces<RegisterSyncResponse>(StatusCodes.Status202Accepted)
        .WithExamples(static () => new RegisterSyncRequest { Source = RegisterSourceExamples.Name, FullPass = true }, static () => RegisterSyncMapping.Example)
        .WithJsonBodyProblems(ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSyncResponse>, Accepted<RegisterSyncResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, [FromServices] TimeProvider clock, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<RegisterSyncRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var wanted = body.Value;
        if (!ItemId.IsUsable(wanted.Source, null, out _) || !await database.RegisterSources.AnyAsync(s => s.Name == wanted.Source, cancellationToken))
            return await UnknownAsync(database, wanted.Source, cancellationToken);
        for (var attempt = 1; ; attempt++)
        {
            if (await OpenRunAsync(database, wanted.Source, cancellationToken) is { } open)
                return TypedResults.Ok(open.ToResponse(clock.GetUtcNow(), Notice(open, wanted)));
            var run = new RegisterSyncRow
            {
                SourceName = wanted.Source, State = RegisterSyncState.Waiting, RequestedBy = ChangeOrigin.Actor, RequestedAt = StoredTime.Now(clock),
                IsFullPass = wanted.FullPass || wanted.AcceptMissing, AcceptsMissing = wanted.AcceptMissing,
            };
            try
            {
                database.Add(run);
                await database.SaveChangesAsync(cancellationToken);
                return TypedResults.Accepted($"/v1/register-syncs/{run.Id}", run.ToResponse(clock.GetUtcNow()));
            }
            catch (DbUpdateException e) when (attempt < Attempts && e.InnerException is PostgresException { SqlState: PostgresErrorCodes.UniqueViolation })
            {
                // Somebody else asked at the same time: the next look finds that run, or it is over already.
                database.ChangeTracker.Clear();
            }
        }
    }

    private static Task<RegisterSyncRow?> OpenRunAsync(TagServiceDbContext database, string source, CancellationToken cancellationToken) => database.RegisterSyncs.AsNoTracking()
        .SingleOrDefaultAsync(s => s.SourceName == source && (s.State == RegisterSyncState.Waiting || s.State == RegisterSyncState.Running), cancellationToken);

    private static SourceNoticeResponse Notice(RegisterSyncRow open, RegisterSyncRequest wanted)
    {
        var less = (wanted.AcceptMissing && !open.AcceptsMissing) || (wanted.FullPass && !open.IsFullPass);
        return new("already-open", less
            ? "This run was asked for before and is not over; it does less than you ask for. Ask again when it is over, or cancel it first."
            : "This run was asked for before and is not over; no second one was made.");
    }

    private static async Task<ApiProblem> UnknownAsync(TagServiceDbContext database, string name, CancellationToken cancellationToken)
    {
        var names = await database.RegisterSources.OrderBy(s => s.Name).Select(s => s.Name).Take(MostNames).ToListAsync(cancellationToken);
        return new(
            ProblemTypes.InvalidFields, "source names no register source.",
            [new("#/source", JsonText.Clip(name), "There is no register source of this name.", names.Count == 0 ? "none is there yet; put one to /v1/register-sources/{name}" : string.Join(", ", names))]);
    }
}
