using Microsoft.EntityFrameworkCore;

namespace TagService.Storage.Queries;

/// <summary>Reading the register's mirror.</summary>
public static class AssetQueries
{
    /// <summary>
    /// Assets behind a key, in ordinal order of their keys. Each page is one step down the primary key, however far in.
    /// </summary>
    /// <param name="context">The database.</param>
    /// <param name="afterAssetId">Last key of the page before; empty for the beginning.</param>
    /// <param name="limit">Most assets to return.</param>
    public static IQueryable<StoredAsset> PageAssets(this TagServiceDbContext context, string afterAssetId, int limit) => context
        .Assets.AsNoTracking()
        .Where(a => string.Compare(a.AssetId, afterAssetId) > 0)
        .OrderBy(a => a.AssetId)
        .Take(limit)
        .Select(a => new StoredAsset(a, a.Recommendation));

    /// <summary>One asset, or null.</summary>
    public static Task<StoredAsset?> FindAssetAsync(
        this TagServiceDbContext context, string assetId, CancellationToken cancellationToken) => context
        .Assets.AsNoTracking()
        .Where(a => a.AssetId == assetId)
        .Select(a => new StoredAsset(a, a.Recommendation))
        .FirstOrDefaultAsync(cancellationToken);
}
