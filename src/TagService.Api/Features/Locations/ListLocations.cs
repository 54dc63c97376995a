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

namespace TagService.Api.Features.Locations;

/// <summary>GET /v1/locations.</summary>
internal static class ListLocations
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listLocations")
        .WithSummary("The tree of locations, page by page")
        .WithDescription(
            "Locations in ordinal order of their ids, each with the id of the one it lies in; under gives one location and all within it, name those "
            + "that a name or alias means: an alias means one, a plain name may mean several. Follow the Link header with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new LocationPageResponse([LocationMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="under">Id of a location: only it and what lies within it.</param>
    /// <param name="name">Name or alias, of any case and spacing.</param>
    /// <param name="after">Location id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most locations on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<LocationPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(ItemId.MaxLength)] string? under,
        [MaxLength(LocationProblems.MaxNameLength)] string? name,
        [MaxLength(ItemId.MaxLength)] string? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var problem = Paging.Refusal(limit) ?? ItemId.Refusal("under", under, ItemId.MaxLength)
            ?? ItemId.Refusal("name", name, LocationProblems.MaxNameLength) ?? ItemId.Refusal("after", after, ItemId.MaxLength);
        if (problem is not null)
            return problem;
        if (under is not null && !await database.Locations.AnyAsync(l => l.Id == under, cancellationToken))
            return ApiProblem.NotFound("under names no location; /v1/locations lists them all.");

        var (most, behind) = (limit ?? Paging.DefaultLimit, after ?? "");
        var wanted = database.LocationsUnder(under);
        if (name is not null)
            wanted = wanted.Named(database, name);
        var found = await wanted.Where(l => string.Compare(l.Id, behind) > 0).OrderBy(l => l.Id).Take(most + 1).ToListAsync(cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "after", l => l.Id);
        return TypedResults.Ok(new LocationPageResponse([.. items.Select(l => l.ToResponse())], next));
    }
}
