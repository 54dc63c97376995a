using Microsoft.EntityFrameworkCore;
using TagService.Storage.Changes;

namespace TagService.Storage.Queries;

/// <summary>Reading the audit trail.</summary>
public static class ChangeQueries
{
    /// <summary>Changes before one, latest first.</summary>
    /// <param name="context">The database.</param>
    /// <param name="kind">Only items of this kind; null for all.</param>
    /// <param name="key">Only this item; needs the kind.</param>
    /// <param name="beforeId">Id before which to begin.</param>
    /// <param name="limit">Most changes to return.</param>
    public static IQueryable<ChangeRow> PageChanges(this TagServiceDbContext context, string? kind, string? key, long beforeId, int limit)
    {
        var changes = context.Changes.AsNoTracking().Where(c => c.Id < beforeId);
        if (kind is not null)
            changes = changes.Where(c => c.Kind == kind);
        if (key is not null)
            changes = changes.Where(c => c.Key == key);
        return changes.OrderByDescending(c => c.Id).Take(limit);
    }
}
