using Microsoft.EntityFrameworkCore;
using TagService.Storage.Changes;
using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Reading the register's mirror, and holding one asset to change it.</summary>
public static class AssetQueries
{
    /// <summary>
    /// Assets behind a key, in ordinal order of their keys. Each page is one step down the primary key, however far in.
    /// </summary>
    /// <param name="context">The database.</param>
    /// <param name="afterAssetId">Last key of the page before; empty for the beginning.</param>
    /// <param name="limit">Most assets to return.</param>
    /// <param name="filter">Which of them; all if absent.</param>
    public static IQueryable<StoredAsset> PageAssets(this TagServiceDbContext context, string afterAssetId, int limit, AssetFilter? filter = null) =>
        (filter ?? new()).Of(context.Assets.AsNoTracking())
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

    /// <summary>One asset, or null, held until the transaction ends: other writers and the worker wait, readers do not.</summary>
    public static async Task<AssetRow?> HoldAssetAsync(this TagServiceDbContext context, string assetId, CancellationToken cancellationToken)
    {
        var found = await context.Assets
            .FromSql($"SELECT a.*, a.xmin FROM assets AS a WHERE a.asset_id = {assetId} FOR NO KEY UPDATE")
            .ToListAsync(cancellationToken);
        return found.SingleOrDefault();
    }

    /// <summary>Marks an asset that is held: its recommendation is to be worked out.</summary>
    public static Task MarkDueAsync(this TagServiceDbContext context, string assetId, CancellationToken cancellationToken) =>
        context.Database.ExecuteAsync($"INSERT INTO recommendations_due (asset_id) VALUES ({assetId}) ON CONFLICT (asset_id) DO NOTHING", cancellationToken);

    /// <summary>What happened to one asset, latest first.</summary>
    /// <param name="context">The database.</param>
    /// <param name="assetId">The asset.</param>
    /// <param name="beforeId">Only changes before this one.</param>
    /// <param name="limit">Most changes to return.</param>
    public static IQueryable<ChangeRow> PageAssetHistory(this TagServiceDbContext context, string assetId, long beforeId, int limit) => context
        .Changes.AsNoTracking()
        .Where(c => c.Kind == AuditKinds.Asset && c.Key == assetId && c.Id < beforeId)
        .OrderByDescending(c => c.Id)
        .Take(limit);

    private static Task<int> ExecuteAsync(this Microsoft.EntityFrameworkCore.Infrastructure.DatabaseFacade database, FormattableString sql, CancellationToken cancellationToken) =>
        database.ExecuteSqlInterpolatedAsync(sql, cancellationToken);
}
