using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Places;

namespace TagService.Api.Features.ReadPoints;

/// <summary>PUT /v1/read-points/{id}.</summary>
internal static class PutReadPoint
{
    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{id}", Handle)
        .WithName("putReadPoint")
        .WithSummary("A read point, new or replaced")
        .WithDescription(
            "A reader, or one of its antennas, and the place it covers. Its kind decides what a missing read can mean: area and cabinet read points watch a space all "
            + "the time and yield one inferred sweep per sweepHours; walked ones count by posted sweeps; a passage gives evidence of presence and movement, "
            + "never of absence. The request replaces what was there before: members left out are empty afterwards. The location must exist; a pair of "
            + "readerName and antenna, and an alias, mean one read point only (409). Send If-Match with the ETag you have seen, or If-None-Match: * to create only.")
        .Accepts<ReadPointRequest>("application/json")
        .WithExamples(static () => ReadPointMapping.ExampleRequest, static () => ReadPointMapping.Example)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Id of your own for the read point: 1 to 100 characters; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<ReadPointResponse>, Created<ReadPointResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, [FromServices] TimeProvider clock, string id, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<ReadPointRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var key = ItemId.Of(id);
        if (!ItemId.IsUsable(key, body.Value.Id, out var problem))
            return problem;
        return ReadPointProblems.OfMembers(body.Value) is { } unusable
            ? unusable
            : await ItemRequest.PutAsync(context, work, (database, ct) => PutAsync(database, context.Request, key, body.Value, clock, ct), cancellationToken);
    }

    private static async Task<ItemPut<ReadPointResponse>> PutAsync(
        TagServiceDbContext database, HttpRequest request, string id, ReadPointRequest wanted, TimeProvider clock, CancellationToken cancellationToken)
    {
        await database.LockPlacesAsync(cancellationToken);
        var row = await database.ReadPoints.Include(r => r.Names).SingleOrDefaultAsync(r => r.Id == id, cancellationToken);
        if (Preconditions.Refusal(request, row is null ? null : ItemRequest.Tag(row.Version)) is { } refused)
            return refused;
        if (await ReadPointProblems.OfPlaceAsync(database, id, wanted, cancellationToken) is { } problem)
            return problem;

        var isNew = row is null;
        if (row is null)
            row = database.Add(ReadPointMapping.RowOf(id, wanted, default)).Entity;
        else
            row.Apply(wanted);
        if (database.ChangeTracker.HasChanges())
            row.UpdatedAt = StoredTime.Now(clock);
        await database.SaveChangesAsync(cancellationToken);
        return new(row.ToResponse(), row.Version, isNew ? $"/v1/read-points/{Uri.EscapeDataString(id)}" : null, null);
    }
}
