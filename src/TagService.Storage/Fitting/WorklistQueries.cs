using Microsoft.EntityFrameworkCore;
using TagService.Domain.Places;
using TagService.Storage.Queries;

namespace TagService.Storage.Fitting;

/// <summary>Place in the order of the worklist: the register's words for the location, then the asset's id.</summary>
/// <param name="LocationName">The register's words; empty for none.</param>
/// <param name="AssetId">The asset.</param>
public readonly record struct WorklistPosition(string LocationName, string AssetId);

/// <summary>Assets that have no tag.</summary>
public static class WorklistQueries
{
    /// <summary>Assets without an open attachment behind a position, place by place.</summary>
    /// <param name="context">The database.</param>
    /// <param name="locationNames">The register's words for the wanted places; null: all assets.</param>
    /// <param name="after">Last position of the page before; null for the beginning.</param>
    /// <param name="limit">Most assets to return.</param>
    public static IQueryable<StoredAsset> PageUnfitted(
        this TagServiceDbContext context, IReadOnlyCollection<string>? locationNames, WorklistPosition? after, int limit)
    {
        var assets = context.Assets.AsNoTracking().Where(a => !context.Attachments.Any(t => t.AssetId == a.AssetId && t.EndReason == null));
        if (locationNames is not null)
            assets = assets.Where(a => a.LocationName != null && locationNames.Contains(a.LocationName));
        if (after is { } position)
        {
            assets = assets.Where(a => EF.Functions.GreaterThan(
                ValueTuple.Create(a.LocationName ?? "", a.AssetId), ValueTuple.Create(position.LocationName, position.AssetId)));
        }

        return assets.OrderBy(a => a.LocationName ?? "").ThenBy(a => a.AssetId).Take(limit).Select(a => new StoredAsset(a, a.Recommendation));
    }

    /// <summary>The register's words for places that a condition holds for; folding is not left to the database, whose letters may differ from ours.</summary>
    /// <param name="context">The database.</param>
    /// <param name="isWanted">Takes the register's words.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<IReadOnlyCollection<string>> LocationNamesAsync(
        this TagServiceDbContext context, Func<string, bool> isWanted, CancellationToken cancellationToken)
    {
        var names = await context.Assets.AsNoTracking().Where(a => a.LocationName != null).Select(a => a.LocationName!).Distinct().ToListAsync(cancellationToken);
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
