using Microsoft.EntityFrameworkCore;
using TagService.Domain.Places;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Storage.Fitting;

/// <summary>Place in the order of the worklist: the register's words for the location, assets without any at the end, then the asset's id.</summary>
/// <param name="LocationName">The register's words; null for none.</param>
/// <param name="AssetId">The asset.</param>
public readonly record struct WorklistPosition(string? LocationName, string AssetId);

/// <summary>Assets that have no tag.</summary>
public static class WorklistQueries
{
    // One step down the index for each place instead of one look at each asset, which DISTINCT takes.
    private const string PlacesSql =
        """
        WITH RECURSIVE places AS (
          (SELECT location_name FROM assets WHERE location_name IS NOT NULL ORDER BY location_name LIMIT 1)
          UNION ALL
          SELECT (SELECT a.location_name FROM assets AS a WHERE a.location_name > p.location_name ORDER BY a.location_name LIMIT 1)
          FROM places AS p WHERE p.location_name IS NOT NULL)
        SELECT location_name AS "Value" FROM places WHERE location_name IS NOT NULL
        """;

    /// <summary>
    /// Assets in service without an open attachment behind a position, place by place. The order is that of the index over location and
    /// id, so that a page costs what it holds however many assets there are; a position within the named places goes on in two steps,
    /// since no comparison of rows reaches from a name to none.
    /// </summary>
    /// <param name="context">The database.</param>
    /// <param name="locationNames">The register's words for the wanted places; null: all assets.</param>
    /// <param name="after">Last position of the page before; null for the beginning.</param>
    /// <param name="limit">Most assets to return.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<List<StoredAsset>> PageUnfittedAsync(
        this TagServiceDbContext context, IReadOnlyCollection<string>? locationNames, WorklistPosition? after, int limit, CancellationToken cancellationToken)
    {
        var unfitted = context.Unfitted(locationNames);
        if (after is not { } position)
            return await PageAsync(unfitted);
        if (position.LocationName is not { } name)
            return await PageAsync(unfitted.Where(a => a.LocationName == null && string.Compare(a.AssetId, position.AssetId) > 0));
        var page = await PageAsync(unfitted.Where(a => EF.Functions.GreaterThan(
            ValueTuple.Create(a.LocationName, a.AssetId), ValueTuple.Create(name, position.AssetId))));
        if (page.Count < limit && locationNames is null)
            page.AddRange(await PageAsync(unfitted.Where(a => a.LocationName == null), limit - page.Count));
        return page;

        // Of nulls the last, as the index has them.
        Task<List<StoredAsset>> PageAsync(IQueryable<AssetRow> assets, int? most = null) => assets
            .OrderBy(a => a.LocationName).ThenBy(a => a.AssetId).Take(most ?? limit).Select(a => new StoredAsset(a, a.Recommendation)).ToListAsync(cancellationToken);
    }

    /// <summary>Assets in service without an open attachment, in no order.</summary>
    /// <param name="context">The database.</param>
    /// <param name="locationNames">The register's words for the wanted places; null: all assets.</param>
    public static IQueryable<AssetRow> Unfitted(this TagServiceDbContext context, IReadOnlyCollection<string>? locationNames)
    {
        var unfitted = context.Assets.AsNoTracking()
            .Where(a => a.RetiredAt == null && !context.Attachments.Any(t => t.AssetId == a.AssetId && t.EndReason == null));
        return locationNames is null ? unfitted : unfitted.Where(a => locationNames.Contains(a.LocationName!));
    }

    /// <summary>The register's words for places that a condition holds for; folding is not left to the database, whose letters may differ from ours.</summary>
    /// <param name="context">The database.</param>
    /// <param name="isWanted">Takes the register's words.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<IReadOnlyCollection<string>> LocationNamesAsync(
        this TagServiceDbContext context, Func<string, bool> isWanted, CancellationToken cancellationToken)
    {
        var names = await context.Database.SqlQueryRaw<string>(PlacesSql).ToListAsync(cancellationToken);
        return [.. names.Where(isWanted)];
    }

    /// <summary>Do two texts mean the same place by their words alone?</summary>
    public static bool SameWords(string a, string b) => PlaceName.Fold(a) == PlaceName.Fold(b);

    /// <summary>Open attachments of an asset: the tags that are on it.</summary>
    /// <param name="context">The database.</param>
    /// <param name="assetId">The asset.</param>
    public static IQueryable<TagOnAsset> TagsOn(this TagServiceDbContext context, string assetId) =>
        from row in context.Attachments.AsNoTracking()
        join tag in context.Tags.AsNoTracking() on row.TagId equals tag.Id
        where row.AssetId == assetId && row.EndReason == null
        orderby row.Id
        select new TagOnAsset(row.Id, tag.Identity, row.TagClassId);
}

/// <summary>A tag that is on an asset.</summary>
/// <param name="AttachmentId">The attachment.</param>
/// <param name="Identity">Canonical text of its identity.</param>
/// <param name="TagClassId">Its tag class, where known.</param>
public sealed record TagOnAsset(Guid AttachmentId, string Identity, string? TagClassId);
