using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>GET /v1/register-syncs/{id}/rejected-rows.</summary>
internal static class ListRejectedRows
{
    private static readonly Representation[] Offered = [Representation.Json, Representation.Csv];

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}/rejected-rows", Handle)
        .WithName("listRejectedRows")
        .WithSummary("Rows that a run refused, with the reason and their text")
        .WithDescription(
            "In the order in which they were refused: where the row stood, the asset's key where it could be read, why it was refused, each value that was not understood with what "
            + "would be accepted, and the row as the source wrote it. With Accept: text/csv or format=csv as CSV (RFC 4180; a field that begins like a formula gets an apostrophe "
            + "before it). The Link header (RFC 8288) has the address of the next page.")
        .Produces<RejectedRowPageResponse>(StatusCodes.Status200OK, "application/json", "text/csv")
        .WithExamples(static () => new RejectedRowPageResponse([RegisterSyncMapping.RejectedExample], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="id">Number of the run, without unit.</param>
    /// <param name="after">Number of the refused row behind which the page begins, without unit.</param>
    /// <param name="limit">Most rows on the page.</param>
    /// <param name="format">json or csv; without it Accept decides.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<IResult> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [Range(1, long.MaxValue)] long id,
        [Range(0, long.MaxValue)] long? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        [AllowedValues("json", "csv", null)] string? format,
        CancellationToken cancellationToken)
    {
        if ((Representation.Choose(context.Request, format, Offered, out var wanted) ?? Paging.Refusal(limit)) is { } problem)
            return problem;
        if (after < 0)
            return new ApiProblem(ProblemTypes.InvalidRequest, FormattableString.Invariant($"after is {after}; accepted: 0 or more."));
        var most = limit ?? Paging.DefaultLimit;
        var found = await database.PageRejectedRows(id, after ?? 0, most + 1).ToListAsync(cancellationToken);
        if (found.Count == 0 && !await database.RegisterSyncs.AnyAsync(s => s.Id == id, cancellationToken))
            return RegisterSyncMapping.NotFound();
        var (items, next) = Paging.Page(context, found, most, "after", r => (long?)r.Number);
        context.Response.Headers.Vary = "Accept";
        RejectedRowResponse[] rows = [.. items.Select(r => r.ToResponse())];
        return wanted == Representation.Csv
            ? TypedResults.Text(RegisterSyncMapping.ToCsv(rows), "text/csv; header=present", Encoding.UTF8)
            : TypedResults.Ok(new RejectedRowPageResponse(rows, next));
    }
}
