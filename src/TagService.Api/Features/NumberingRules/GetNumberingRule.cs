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

namespace TagService.Api.Features.NumberingRules;

/// <summary>GET /v1/numbering-rules/{id}.</summary>
internal static class GetNumberingRule
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}", Handle)
        .WithName("getNumberingRule")
        .WithSummary("One numbering rule")
        .WithDescription("The ETag changes with any of its members, so with every number handed out too; send it in If-Match when you replace or delete the numbering rule.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => NumberingRuleMapping.Example)
        .WithProblems(ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="id">Id of the numbering rule; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<NumberingRuleResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        return ItemId.IsUsable(key, null, out _) && await database.NumberingRules.AsNoTracking().SingleOrDefaultAsync(r => r.Id == key, cancellationToken) is { } row
            ? ItemRequest.Show(context, row.ToResponse(), row.Version)
            : NumberingRuleProblems.NotFound();
    }
}
