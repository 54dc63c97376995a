using Microsoft.EntityFrameworkCore;

namespace TagService.Storage.Queries;

/// <summary>Reading tag batches.</summary>
public static class TagBatchQueries
{
    /// <summary>
    /// Tag batches behind a key, in ordinal order of their keys. The page is cut before anything is joined to it, so that what
    /// is counted for a batch is counted for one page only.
    /// </summary>
    /// <param name="context">The database.</param>
    /// <param name="tagClassId">Only batches of this class; null for all.</param>
    /// <param name="afterId">Last key of the page before; empty for the beginning.</param>
    /// <param name="limit">Most batches to return.</param>
    public static IQueryable<StoredTagBatch> PageTagBatches(this TagServiceDbContext context, string? tagClassId, string afterId, int limit) => context
        .TagBatches.AsNoTracking()
        .Where(b => string.Compare(b.Id, afterId) > 0 && (tagClassId == null || b.TagClassId == tagClassId))
        .OrderBy(b => b.Id)
        .Take(limit)
        .Select(b => new StoredTagBatch(b));
}
