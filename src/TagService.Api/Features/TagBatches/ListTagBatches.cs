using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.TagBatches;

/// <summary>GET /v1/tag-batches.</summary>
internal static class ListTagBatches
{
    private const int MaxClassIdLength = 60;

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listTagBatches")
        .WithSummary("All tag batches, page by page")
        .WithDescription(
            "Tags bought together with what became of them, in ordinal order of the batches' ids. Follow the Link header with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new TagBatchPageResponse([TagBatchMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="tagClass">Id of a tag class: only its batches.</param>
    /// <param name="after">Tag batch id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most tag batches on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<TagBatchPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(MaxClassIdLength)] string? tagClass,
        [MaxLength(ItemId.MaxLength)] string? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var problem = Paging.Refusal(limit) ?? ItemId.Refusal("tagClass", tagClass, MaxClassIdLength) ?? ItemId.Refusal("after", after, ItemId.MaxLength);
        if (problem is not null)
            return problem;

        var most = limit ?? Paging.DefaultLimit;
        var found = await database.PageTagBatchesAsync(tagClass, after ?? "", most + 1, cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "after", b => b.Batch.Id);
        return TypedResults.Ok(new TagBatchPageResponse([.. items.Select(b => b.Batch.ToResponse(b.Use))], next));
    }
}
