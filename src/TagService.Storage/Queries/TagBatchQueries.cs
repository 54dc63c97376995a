using Microsoft.EntityFrameworkCore;
using TagService.Domain.Attachments;
using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Reading tag batches.</summary>
public static class TagBatchQueries
{
    /// <summary>Most ids that are looked through for one like an unknown one.</summary>
    private const int MostNames = 5000;

    // What a reason says of the tag's life is not known to the database; reasons that only a newer program has count as not known.
    private const string UseSql =
        """
        SELECT tag_batch_id AS batch_id, count(DISTINCT tag_id) AS fitted, count(*) AS attachments,
               count(*) FILTER (WHERE end_reason IS NULL) AS open_now,
               count(*) FILTER (WHERE end_reason = ANY ({1})) AS failed,
               count(*) FILTER (WHERE end_reason = ANY ({2})) AS removed
        FROM attachments WHERE tag_batch_id = ANY ({0}) AND NOT is_void GROUP BY tag_batch_id
        """;

    private static readonly string[] Failures = ReasonsOf(EndKind.Failure);
    private static readonly string[] Removals = ReasonsOf(EndKind.Removal);

    /// <summary>
    /// Tag batches behind a key, in ordinal order of their keys. The page is cut first, so that attachments are counted for one page only.
    /// </summary>
    /// <param name="context">The database.</param>
    /// <param name="tagClassId">Only batches of this class; null for all.</param>
    /// <param name="afterId">Last key of the page before; empty for the beginning.</param>
    /// <param name="limit">Most batches to return.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<List<StoredTagBatch>> PageTagBatchesAsync(
        this TagServiceDbContext context, string? tagClassId, string afterId, int limit, CancellationToken cancellationToken)
    {
        var page = await context.TagBatches.AsNoTracking()
            .Where(b => string.Compare(b.Id, afterId) > 0 && (tagClassId == null || b.TagClassId == tagClassId))
            .OrderBy(b => b.Id)
            .Take(limit)
            .ToListAsync(cancellationToken);
        var uses = await UsesAsync(context, [.. page.Select(b => b.Id)], cancellationToken);
        return [.. page.Select(b => new StoredTagBatch(b, uses.GetValueOrDefault(b.Id, TagBatchUse.None)))];
    }

    /// <summary>What became of the tags of one batch.</summary>
    /// <param name="context">The database.</param>
    /// <param name="id">Id of the batch.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<TagBatchUse> UseOfTagBatchAsync(this TagServiceDbContext context, string id, CancellationToken cancellationToken) =>
        (await UsesAsync(context, [id], cancellationToken)).GetValueOrDefault(id, TagBatchUse.None);

    /// <summary>Is there such a batch? If so it stays until the transaction ends.</summary>
    /// <param name="context">A context within a transaction.</param>
    /// <param name="id">Id of the batch.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<bool> HoldTagBatchAsync(this TagServiceDbContext context, string id, CancellationToken cancellationToken) =>
        (await context.Database.SqlQuery<string>($"SELECT id AS \"Value\" FROM tag_batches WHERE id = {id} FOR KEY SHARE").ToListAsync(cancellationToken)).Count > 0;

    /// <summary>Ids of batches, the latest first and not without end: for finding the one somebody meant.</summary>
    /// <param name="batches">The batches.</param>
    public static IQueryable<string> LatestIds(this IQueryable<TagBatchRow> batches) =>
        batches.AsNoTracking().OrderByDescending(b => b.UpdatedAt).Select(b => b.Id).Take(MostNames);

    private static async Task<Dictionary<string, TagBatchUse>> UsesAsync(TagServiceDbContext context, string[] ids, CancellationToken cancellationToken)
    {
        var counted = ids.Length == 0 ? [] : await context.Database.SqlQueryRaw<Counted>(UseSql, ids, Failures, Removals).ToListAsync(cancellationToken);
        return counted.ToDictionary(
            c => c.BatchId, c => new TagBatchUse(c.Fitted, c.Attachments, c.OpenNow, c.Failed, c.Removed, c.Attachments - c.OpenNow - c.Failed - c.Removed), StringComparer.Ordinal);
    }

    private static string[] ReasonsOf(EndKind kind) => [.. EndReasons.All.Where(r => r.Kind == kind).Select(r => r.Id)];

    private sealed record Counted(string BatchId, long Fitted, long Attachments, long OpenNow, long Failed, long Removed);
}
