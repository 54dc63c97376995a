using Microsoft.EntityFrameworkCore;

namespace TagService.Storage.Places;

/// <summary>The tree of locations: one writer at a time, and never a cycle.</summary>
public static class LocationTree
{
    /// <summary>
    /// Two moves that are fine each by itself can make a cycle together, so writers of places take turns until the end of their
    /// transaction. Places change rarely; readers do not wait.
    /// </summary>
    internal const string LockSql = "SELECT pg_advisory_xact_lock(hashtextextended('tagservice.places', 0))";

    /// <summary>From a location up to the top. Stops should somebody have made a cycle by hand.</summary>
    internal const string UpwardSql =
        """
        WITH RECURSIVE up AS (
          SELECT id, parent_id, 1 AS step FROM locations WHERE id = {0}
          UNION ALL
          SELECT l.id, l.parent_id, up.step + 1 FROM locations AS l JOIN up ON l.id = up.parent_id
        ) CYCLE id SET again USING seen
        SELECT id AS "Value" FROM up WHERE NOT again ORDER BY step
        """;

    /// <summary>A location and all that lie in it; to be composed with.</summary>
    internal const string SubtreeSql =
        """
        WITH RECURSIVE down AS (
          SELECT id FROM locations WHERE id = {0}
          UNION
          SELECT l.id FROM locations AS l JOIN down ON l.parent_id = down.id
        )
        SELECT l.*, l.xmin FROM locations AS l WHERE l.id IN (SELECT id FROM down)
        """;

    /// <summary>Waits until no other transaction is writing places.</summary>
    public static Task LockPlacesAsync(this TagServiceDbContext database, CancellationToken cancellationToken) =>
        database.Database.ExecuteSqlRawAsync(LockSql, cancellationToken);

    /// <summary>Ids from a location up to the top, itself first; empty when there is no such location.</summary>
    public static async Task<IReadOnlyList<string>> PathUpAsync(this TagServiceDbContext database, string id, CancellationToken cancellationToken) =>
        await database.Database.SqlQueryRaw<string>(UpwardSql, id).ToListAsync(cancellationToken);
}
