using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using Microsoft.Net.Http.Headers;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Queries;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.TagBatches;

/// <summary>PUT /v1/tag-batches/{id}.</summary>
internal static class PutTagBatch
{
    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{id}", Handle)
        .WithName("putTagBatch")
        .WithSummary("A tag batch, new or replaced")
        .WithDescription(
            "Tags bought together, so that quality can be compared by batch. The tag class must be in the catalogue; the lot is kept as printed on the delivery. "
            + "The request replaces what was there before: members left out are empty afterwards. Send If-Match with the ETag you have seen, or "
            + "If-None-Match: * to create only.")
        .Accepts<TagBatchRequest>("application/json")
        .WithExamples(static () => TagBatchMapping.ExampleRequest, static () => TagBatchMapping.Example)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="contexts">The catalogue.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Id of your own for the tag batch: 1 to 100 characters; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<TagBatchResponse>, Created<TagBatchResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TransactedWork work,
        [FromServices] RecommendationContextSource contexts,
        [FromServices] TimeProvider clock,
        string id,
        CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<TagBatchRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var key = ItemId.Of(id);
        if (!ItemId.IsUsable(key, body.Value.Id, out var problem))
            return problem;
        var (tagClass, unusable) = TagBatchMapping.Check(body.Value, contexts.Snapshot);
        if (tagClass is null)
            return unusable!;
        EntityTagHeaderValue? tag = null;
        var result = await ItemRequest.PutAsync(
            context, work, async (database, ct) =>
            {
                var (put, now) = await PutAsync(database, context.Request, key, body.Value, tagClass.Id, clock, ct);
                tag = now;
                return put;
            },
            cancellationToken);
        if (result.Result is not ApiProblem)
            context.Response.GetTypedHeaders().ETag = tag;
        return result;
    }

    private static async Task<(ItemPut<TagBatchResponse> Put, EntityTagHeaderValue? Tag)> PutAsync(
        TagServiceDbContext database, HttpRequest request, string id, TagBatchRequest wanted, string tagClassId, TimeProvider clock, CancellationToken cancellationToken)
    {
        var row = await database.TagBatches.SingleOrDefaultAsync(b => b.Id == id, cancellationToken);
        if (Preconditions.Refusal(request, row is null ? null : TwoPartTag.ForPrecondition(request, row.Version)) is { } refused)
            return (refused, null);

        var isNew = row is null;
        if (row is null)
            row = database.Add(TagBatchMapping.RowOf(id, wanted, tagClassId, default)).Entity;
        else
            row.Apply(wanted, tagClassId);
        if (database.ChangeTracker.HasChanges())
            row.UpdatedAt = StoredTime.Now(clock);
        await database.SaveChangesAsync(cancellationToken);
        var use = await database.UseOfTagBatchAsync(id, cancellationToken);
        return (new(row.ToResponse(use), row.Version, isNew ? $"/v1/tag-batches/{Uri.EscapeDataString(id)}" : null, null), TagBatchMapping.TagOf(row, use));
    }
}
