using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>GET /v1/range-measurements.</summary>
internal static class ListRangeMeasurements
{
    private const int DefaultLimit = 100;
    private const int MaxLimit = 1000;

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listRangeMeasurements")
        .WithSummary("All findings, page by page")
        .WithDescription("Oldest first, with every gap as it was filled when recorded; those of attachments' checks among them, for as long as the attachment says so. Follow the Link header with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => RangeMeasurementMapping.Example)
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="after">Id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most findings on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RangeMeasurementPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [Range(0, long.MaxValue)] long? after,
        [Range(1, MaxLimit), DefaultValue(DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var most = limit ?? DefaultLimit;
        if (most is < 1 or > MaxLimit)
            return new ApiProblem(ProblemTypes.InvalidRequest, FormattableString.Invariant($"limit is {most}; accepted: 1 to {MaxLimit}."));
        if (after < 0)
            return new ApiProblem(ProblemTypes.InvalidRequest, FormattableString.Invariant($"after is {after}; accepted: 0 or more."));

        // One more than wanted shows whether there is a next page.
        var found = await database.PageRangeMeasurements(after ?? 0, most + 1).ToListAsync(cancellationToken);
        var next = found.Count > most ? found[most - 1].Id : (long?)null;
        if (next is not null)
        {
            context.Response.Headers.Link = string.Create(
                CultureInfo.InvariantCulture, $"<{context.Request.PathBase}{context.Request.Path}?after={next}&limit={most}>; rel=\"next\"");
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.Ok(new RangeMeasurementPageResponse([.. found.Take(most).Select(m => m.ToResponse())], next));
    }
}
