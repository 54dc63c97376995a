using Microsoft.EntityFrameworkCore;
using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Reading measured ranges.</summary>
public static class RangeMeasurementQueries
{
    /// <summary>Measured ranges behind a key, oldest first.</summary>
    /// <param name="context">The database.</param>
    /// <param name="afterId">Last key of the page before; 0 for the beginning.</param>
    /// <param name="limit">Most rows to return.</param>
    public static IQueryable<RangeMeasurementRow> PageRangeMeasurements(this TagServiceDbContext context, long afterId, int limit) => context
        .RangeMeasurements.AsNoTracking()
        .Where(m => m.Id > afterId)
        .OrderBy(m => m.Id)
        .Take(limit);
}
