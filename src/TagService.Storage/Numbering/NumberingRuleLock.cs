using Microsoft.EntityFrameworkCore;
using TagService.Storage.Tables;

namespace TagService.Storage.Numbering;

/// <summary>Numbering rules while somebody changes one.</summary>
public static class NumberingRuleLock
{
    // Rules are compared with each other, one default gives way to another, and no number may be taken in between: all are held.
    private const string LockSql = "LOCK TABLE numbering_rules IN SHARE ROW EXCLUSIVE MODE";

    /// <summary>All rules, by id, held until the end of the transaction; there are few.</summary>
    public static async Task<List<NumberingRuleRow>> LockNumberingRulesAsync(this TagServiceDbContext database, CancellationToken cancellationToken)
    {
        await database.Database.ExecuteSqlRawAsync(LockSql, cancellationToken);
        return await database.NumberingRules.OrderBy(r => r.Id).ToListAsync(cancellationToken);
    }
}
