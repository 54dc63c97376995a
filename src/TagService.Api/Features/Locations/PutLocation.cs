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
using TagService.Domain.Recommendations;
using TagService.Storage;
using TagService.Storage.Idempotency;
using TagService.Storage.Places;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Locations;

/// <summary>PUT /v1/locations/{id}.</summary>
internal static class PutLocation
{
    private static readonly LocationRequest Example = new()
    {
        Name = LocationMapping.Example.Name, ParentId = LocationMapping.Example.ParentId, Aliases = LocationMapping.Example.Aliases, Setting = Setting.Plant,
    };

    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{id}", Handle)
        .WithName("putLocation")
        .WithSummary("A location, new or replaced")
        .WithDescription(
            "The request replaces what was there before: members left out are empty afterwards. The parent must exist and must not lie within the location "
            + "itself (409, with the path). An alias that another location has is refused (409). Send If-Match with the ETag you have seen, or "
            + "If-None-Match: * to create only.")
        .Accepts<LocationRequest>("application/json")
        .WithExamples(static () => Example, static () => LocationMapping.Example)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Id of your own for the location: 1 to 100 characters; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<LocationResponse>, Created<LocationResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, [FromServices] TimeProvider clock, string id, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<LocationRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var key = ItemId.Of(id);
        if (!ItemId.IsUsable(key, body.Value.Id, out var problem))
            return problem;
        return LocationProblems.OfNames(body.Value.Aliases ?? []) is { } unusable
            ? unusable
            : await ItemRequest.PutAsync(context, work, (database, ct) => PutAsync(database, context.Request, key, body.Value, clock, ct), cancellationToken);
    }

    private static async Task<ItemPut<LocationResponse>> PutAsync(
        TagServiceDbContext database, HttpRequest request, string id, LocationRequest wanted, TimeProvider clock, CancellationToken cancellationToken)
    {
        await database.LockPlacesAsync(cancellationToken);
        var row = await database.Locations.Include(l => l.Names).SingleOrDefaultAsync(l => l.Id == id, cancellationToken);
        if (Preconditions.Refusal(request, row is null ? null : ItemRequest.Tag(row.Version)) is { } refused)
            return refused;
        if (await LocationProblems.OfPlaceAsync(database, id, wanted, cancellationToken) is { } problem)
            return problem;

        var isNew = row is null;
        row ??= database.Add(new LocationRow { Id = id, UpdatedAt = default }).Entity;
        row.Rename(wanted.Name, wanted.Aliases ?? []);
        (row.ParentId, row.Setting, row.Note) = (wanted.ParentId, wanted.Setting, wanted.Note);
        if (database.ChangeTracker.HasChanges())
            row.UpdatedAt = StoredTime.Now(clock);
        await database.SaveChangesAsync(cancellationToken);
        return new(row.ToResponse(), row.Version, isNew ? $"/v1/locations/{Uri.EscapeDataString(id)}" : null, null);
    }
}
