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
using TagService.Storage.Bulk;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Assets;

/// <summary>GET /v1/assets.</summary>
internal static class ListAssets
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listAssets")
        .WithSummary("Assets, page by page")
        .WithDescription(
            "Assets in ordinal order of their ids, all or those that fit every filter sent. The next page begins behind the last id of this one, so that assets added or "
            + "changed meanwhile move nothing; follow the Link header with rel=\"next\" (RFC 8288) until there is none. Retired assets are listed unless retired=false.")
        .WithExamples(static () => new AssetPageResponse([AssetMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="after">Asset id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most assets on the page.</param>
    /// <param name="category">Only assets of exactly this category, as the register writes it.</param>
    /// <param name="location">Only assets at exactly this location name, as the register writes it.</param>
    /// <param name="retired">true: only retired assets; false: only those in service.</param>
    /// <param name="changedSince">Only assets whose content changed at or after this time, RFC 3339 with offset; a + in it is written %2B.</param>
    /// <param name="withoutRecommendation">true: only assets for which no recommendation is stored yet; false: only those for which one is, even if it says that none suits.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AssetPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(AssetContent.MaxAssetIdLength)] string? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        [MaxLength(AssetContent.MaxTextLength)] string? category,
        [MaxLength(AssetContent.MaxTextLength)] string? location,
        bool? retired,
        DateTimeOffset? changedSince,
        bool? withoutRecommendation,
        CancellationToken cancellationToken)
    {
        var refused = Paging.Refusal(limit) ?? AssetReader.OfText("after", after, AssetContent.MaxAssetIdLength)
            ?? AssetReader.OfText("category", category, AssetContent.MaxTextLength) ?? AssetReader.OfText("location", location, AssetContent.MaxTextLength);
        if (refused is not null)
            return refused;
        var most = limit ?? Paging.DefaultLimit;
        var filter = new AssetFilter
        {
            Category = category, LocationName = location, Retired = retired, ChangedSince = changedSince, WithoutRecommendation = withoutRecommendation,
        };
        var found = await database.PageAssets(after ?? "", most + 1, filter).ToListAsync(cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "after", a => a.Asset.AssetId);
        return TypedResults.Ok(new AssetPageResponse([.. items.Select(a => a.ToResponse())], next));
    }
}
