using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;

namespace TagService.Api.Features.TagBatches;

/// <summary>DELETE /v1/tag-batches/{id}.</summary>
internal static class DeleteTagBatch
{
    public static void Map(IEndpointRouteBuilder group) => group.MapDelete("/{id}", Handle)
        .WithName("deleteTagBatch")
        .WithSummary("Take a tag batch away")
        .WithDescription(
            "Refused (409) while any attachment names it. Send If-Match with the ETag you have seen.")
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="id">Id of the tag batch; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<NoContent, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, string id, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(id);
        return ItemId.IsUsable(key, null, out _)
            ? await ItemRequest.DeleteAsync(context, work, (database, ct) => DeleteAsync(database, context.Request, key, ct), cancellationToken)
            : TagBatchMapping.NotFound();
    }

    private static async Task<ApiProblem?> DeleteAsync(TagServiceDbContext database, HttpRequest request, string id, CancellationToken cancellationToken)
    {
        var row = await database.TagBatches.SingleOrDefaultAsync(b => b.Id == id, cancellationToken);
        if (row is null)
            return TagBatchMapping.NotFound();
        if (Preconditions.Refusal(request, TwoPartTag.ForPrecondition(request, row.Version)) is { } refused)
            return refused;
        database.Remove(row);
        await database.SaveChangesAsync(cancellationToken);
        return null;
    }
}
