using System.ComponentModel;
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

namespace TagService.Api.Features.NumberingRules;

/// <summary>GET /v1/numbering-rules.</summary>
internal static class ListNumberingRules
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listNumberingRules")
        .WithSummary("All numbering rules, page by page")
        .WithDescription(
            "Rules by which identities of new tags are numbered, with how far each has come, in ordinal order of their ids. Follow the Link header with "
            + "rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new NumberingRulePageResponse([NumberingRuleMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="after">Numbering rule id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most numbering rules on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<NumberingRulePageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(ItemId.MaxLength)] string? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var problem = Paging.Refusal(limit) ?? ItemId.Refusal("after", after, ItemId.MaxLength);
        if (problem is not null)
            return problem;

        var (most, behind) = (limit ?? Paging.DefaultLimit, after ?? "");
        var found = await database.NumberingRules.AsNoTracking()
            .Where(r => string.Compare(r.Id, behind) > 0).OrderBy(r => r.Id).Take(most + 1).ToListAsync(cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "after", r => r.Id);
        return TypedResults.Ok(new NumberingRulePageResponse([.. items.Select(r => r.ToResponse())], next));
    }
}
