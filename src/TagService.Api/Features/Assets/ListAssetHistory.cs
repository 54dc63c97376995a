using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Text.Json;
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
using TagService.Storage.Bulk;
using TagService.Storage.Changes;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Assets;

/// <summary>GET /v1/assets/{assetId}/history.</summary>
internal static class ListAssetHistory
{
    private static readonly AssetHistoryEntryResponse Example = new(
        4712, new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero), "unnamed-caller", AssetSources.Push, ChangeAction.Changed, "4bf92f3577b34da6a3ce929d0e0e4736",
        [new("/locationName", Text("Harquith Water Treatment Works / Store"), Text("Harquith Water Treatment Works / Pump hall"))]);

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/{assetId}/history", Handle)
        .WithName("listAssetHistory")
        .WithSummary("What happened to an asset's record, and who did it")
        .WithDescription(
            "Every change of the mirror, whether pushed or taken over from a register, latest first: which fields changed from what to what. The first entry of an asset "
            + "names all its fields; what is recommended for it and what is attached to it is not part of this history. Follow the Link header with rel=\"next\" (RFC 8288) back in time.")
        .WithExamples(static () => new AssetHistoryPageResponse([Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="assetId">The register's key; a slash within it is written %2F.</param>
    /// <param name="before">Number of a change before which the page begins, without unit; the latest if absent.</param>
    /// <param name="limit">Most changes on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AssetHistoryPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        string assetId,
        [Range(1, long.MaxValue)] long? before,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var key = AssetReader.KeyOf(assetId);
        if ((AssetReader.OfKey(key) ?? Paging.Refusal(limit)) is { } refused)
            return refused;
        if (before < 1)
            return new ApiProblem(ProblemTypes.InvalidRequest, FormattableString.Invariant($"before is {before}; accepted: 1 or more."));
        var most = limit ?? Paging.DefaultLimit;
        var found = await database.PageAssetHistory(key, before ?? long.MaxValue, most + 1).ToListAsync(cancellationToken);
        // An asset of an older program version may have no history yet.
        if (found.Count == 0 && !await database.Assets.AnyAsync(a => a.AssetId == key, cancellationToken))
            return ApiProblem.NotFound("No asset has this id; /v1/assets lists them all.");
        var (items, next) = Paging.Page(context, found, most, "before", c => (long?)c.Id);
        return TypedResults.Ok(new AssetHistoryPageResponse([.. items.Select(c => c.ToResponse())], next));
    }

    private static JsonElement Text(string value) => JsonSerializer.SerializeToElement(value);
}
