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
using TagService.Storage.Queries;

namespace TagService.Api.Features.RegisterSources;

/// <summary>GET /v1/register-sources.</summary>
internal static class ListRegisterSources
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listRegisterSources")
        .WithSummary("All register sources, page by page")
        .WithDescription(
            "Registers that assets are read from, in ordinal order of their names, each with its settings, its latest run, when the next one is due and how many assets it "
            + "lists. Secrets are never shown: sources only name them. Follow the Link header with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new RegisterSourcePageResponse([RegisterSourceExamples.Response], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="after">Name behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most sources on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSourcePageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(ItemId.MaxLength)] string? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        if ((Paging.Refusal(limit) ?? ItemId.Refusal("after", after, ItemId.MaxLength)) is { } problem)
            return problem;
        var most = limit ?? Paging.DefaultLimit;
        var found = await database.PageRegisterSources(after ?? "", most + 1).ToListAsync(cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "after", s => s.Source.Name);
        return TypedResults.Ok(new RegisterSourcePageResponse([.. items.Select(s => s.ToResponse())], next));
    }
}
