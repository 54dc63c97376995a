using Microsoft.EntityFrameworkCore;
using TagService.Storage.Attachments;
using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Reading attachments.</summary>
public static class AttachmentQueries
{
    /// <summary>One attachment, or null.</summary>
    /// <param name="context">The database.</param>
    /// <param name="id">Its id.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<StoredAttachment?> FindAttachmentAsync(this TagServiceDbContext context, Guid id, CancellationToken cancellationToken) =>
        (await ReadAsync(context, context.Attachments.Where(a => a.Id == id), 1, cancellationToken)).FirstOrDefault();

    /// <summary>Attachments of an asset behind an id, in the order of their recording.</summary>
    /// <param name="context">The database.</param>
    /// <param name="assetId">The asset.</param>
    /// <param name="after">Last id of the page before; empty for the beginning.</param>
    /// <param name="limit">Most to return.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static Task<List<StoredAttachment>> PageAttachmentsOfAssetAsync(
        this TagServiceDbContext context, string assetId, Guid after, int limit, CancellationToken cancellationToken) =>
        ReadAsync(context, context.Attachments.Where(a => a.AssetId == assetId && a.Id > after), limit, cancellationToken);

    /// <summary>The same of a tag.</summary>
    /// <param name="context">The database.</param>
    /// <param name="tagId">Number of the tag.</param>
    /// <param name="after">Last id of the page before; empty for the beginning.</param>
    /// <param name="limit">Most to return.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static Task<List<StoredAttachment>> PageAttachmentsOfTagAsync(
        this TagServiceDbContext context, long tagId, Guid after, int limit, CancellationToken cancellationToken) =>
        ReadAsync(context, context.Attachments.Where(a => a.TagId == tagId && a.Id > after), limit, cancellationToken);

    /// <summary>Number of a tag; null when the identity was never recorded.</summary>
    /// <param name="context">The database.</param>
    /// <param name="identity">Canonical text of the identity.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static Task<long?> FindTagIdAsync(this TagServiceDbContext context, string identity, CancellationToken cancellationToken) =>
        context.Tags.Where(t => t.Identity == identity).Select(t => (long?)t.Id).FirstOrDefaultAsync(cancellationToken);

    private static async Task<List<StoredAttachment>> ReadAsync(
        TagServiceDbContext context, IQueryable<AttachmentRow> rows, int limit, CancellationToken cancellationToken)
    {
        var found = await (from row in rows.AsNoTracking()
                           join tag in context.Tags.AsNoTracking() on row.TagId equals tag.Id
                           orderby row.Id
                           select new { row, tag }).Take(limit).ToListAsync(cancellationToken);
        return [.. found.Select(f => new StoredAttachment(f.row.ToAttachment(f.tag.Identity), f.tag, f.row.Version))];
    }
}
