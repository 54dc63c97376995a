using System.Diagnostics;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Metadata;

namespace TagService.Storage.Changes;

/// <summary>
/// Adds a <see cref="ChangeRow"/> for every changed <see cref="IAudited"/> row to the same save: no writer can forget it, and
/// neither is kept without the other. Bulk writing goes past EF Core and writes its own rows.
/// </summary>
internal sealed class ChangeWriter(TimeProvider clock) : SaveChangesInterceptor
{
    public override InterceptionResult<int> SavingChanges(DbContextEventData eventData, InterceptionResult<int> result)
    {
        Add(eventData.Context);
        return result;
    }

    public override ValueTask<InterceptionResult<int>> SavingChangesAsync(
        DbContextEventData eventData, InterceptionResult<int> result, CancellationToken cancellationToken = default)
    {
        Add(eventData.Context);
        return new(result);
    }

    private void Add(DbContext? context)
    {
        if (context is null)
            return;
        // A save that failed is tried again with what it had added still there.
        foreach (var left in context.ChangeTracker.Entries<ChangeRow>().Where(e => e.State == EntityState.Added).ToList())
            left.State = EntityState.Detached;
        var rows = context.ChangeTracker.Entries<IAudited>().Select(RowOf).OfType<ChangeRow>().ToList();
        context.AddRange(rows);
    }

    private ChangeRow? RowOf(EntityEntry<IAudited> entry)
    {
        var (before, after) = entry.State switch
        {
            EntityState.Added => (null, Text(entry.CurrentValues)),
            EntityState.Modified => (Text(entry.OriginalValues), Text(entry.CurrentValues)),
            EntityState.Deleted => (Text(entry.OriginalValues), null),
            _ => ((string?)null, (string?)null),
        };
        return before == after ? null : new()
        {
            At = clock.GetUtcNow(),
            Actor = ChangeOrigin.Actor,
            TraceId = Activity.Current?.TraceId.ToHexString(),
            Kind = entry.Entity.AuditKind,
            Key = entry.Entity.AuditKey,
            Action = before is null ? ChangeAction.Created : after is null ? ChangeAction.Deleted : ChangeAction.Changed,
            Before = before,
            After = after,
        };
    }

    // Columns under the names the interface uses; what the database computes or counts is no content.
    private static string Text(PropertyValues values) => JsonSerializer.Serialize(
        values.Properties
            .Where(p => p.ValueGenerated == ValueGenerated.Never && p.PropertyInfo?.IsDefined(typeof(NoContentAttribute), inherit: false) == false)
            .Select(p => (Name: JsonNamingPolicy.CamelCase.ConvertName(p.Name), Value: values[p]))
            .Where(p => p.Value is not null)
            .ToDictionary(p => p.Name, p => p.Value, StringComparer.Ordinal),
        AssetRecordJson.Options);
}
