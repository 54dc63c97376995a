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

namespace TagService.Api.Features.TagBatches;

/// <summary>GET /v1/tag-batches/{id}.</summary>
internal static class GetTagBatch
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{id}", Handle)
        .WithName("getTagBatch")
        .WithSummary("One tag batch")
        .WithDescription("What was bought, and what became of it: fitted, open now, failed, removed, and what should still be on the shelf. The ETag has two parts: the first "
            + "changes with the batch, the second with its use; send it in If-Match when you replace or delete the batch, and only the first part is compared.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => TagBatchMapping.Example)
        .WithProblems(ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="id">Id of the tag batch; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<TagBatchResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        if (!ItemId.IsUsable(key, null, out _) || await database.TagBatches.AsNoTracking().SingleOrDefaultAsync(b => b.Id == key, cancellationToken) is not { } row)
            return TagBatchMapping.NotFound();
        var use = await database.UseOfTagBatchAsync(key, cancellationToken);
        return ItemRequest.Show(context, row.ToResponse(use), TagBatchMapping.TagOf(row, use));
    }
}
