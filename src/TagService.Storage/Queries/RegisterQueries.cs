using Microsoft.EntityFrameworkCore;
using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Reading register sources, their runs and what was refused.</summary>
public static class RegisterQueries
{
    /// <summary>Sources behind a name, in ordinal order.</summary>
    /// <param name="context">The database.</param>
    /// <param name="afterName">Last name of the page before; empty for the beginning.</param>
    /// <param name="limit">Most sources to return.</param>
    public static IQueryable<StoredRegisterSource> PageRegisterSources(this TagServiceDbContext context, string afterName, int limit) =>
        WithState(context, context.RegisterSources.AsNoTracking().Where(s => string.Compare(s.Name, afterName) > 0).OrderBy(s => s.Name).Take(limit));

    /// <summary>One source, or null.</summary>
    /// <param name="context">The database.</param>
    /// <param name="name">Its name.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static Task<StoredRegisterSource?> FindRegisterSourceAsync(this TagServiceDbContext context, string name, CancellationToken cancellationToken) =>
        WithState(context, context.RegisterSources.AsNoTracking().Where(s => s.Name == name)).FirstOrDefaultAsync(cancellationToken);

    /// <summary>What has come of a source that is held in the context.</summary>
    /// <param name="context">The database.</param>
    /// <param name="source">The source.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task<StoredRegisterSource> StateOfAsync(this TagServiceDbContext context, RegisterSourceRow source, CancellationToken cancellationToken) => new(
        source,
        await context.RegisterSyncs.AsNoTracking().Where(r => r.SourceName == source.Name).OrderByDescending(r => r.Id).FirstOrDefaultAsync(cancellationToken),
        await context.RegisterRows.LongCountAsync(r => r.SourceName == source.Name, cancellationToken));

    /// <summary>Takes away what hangs on a source: its list of assets goes, a run that is not over is cancelled. Assets and their history stay.</summary>
    /// <param name="context">A context within a transaction.</param>
    /// <param name="name">Name of the source.</param>
    /// <param name="now">The time.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task ForgetRegisterSourceAsync(this TagServiceDbContext context, string name, DateTimeOffset now, CancellationToken cancellationToken)
    {
        await EndAsync(context, context.RegisterSyncs.Where(s => s.SourceName == name), "source-deleted", "The source was deleted.", now, cancellationToken);
        await context.RegisterRows.Where(r => r.SourceName == name).ExecuteDeleteAsync(cancellationToken);
    }

    /// <summary>Cancels a run that waits or runs; another one is left as it is. A worker that has it finds out before it writes its next page.</summary>
    /// <param name="context">The database.</param>
    /// <param name="id">Number of the run.</param>
    /// <param name="reason">Why, in a sentence.</param>
    /// <param name="now">The time.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static Task CancelRegisterSyncAsync(this TagServiceDbContext context, long id, string reason, DateTimeOffset now, CancellationToken cancellationToken) =>
        EndAsync(context, context.RegisterSyncs.Where(s => s.Id == id), "cancelled", reason, now, cancellationToken);

    /// <summary>Runs before a number, latest first.</summary>
    /// <param name="context">The database.</param>
    /// <param name="source">Only runs of this source.</param>
    /// <param name="state">Only runs in this state.</param>
    /// <param name="beforeId">Only runs before this one.</param>
    /// <param name="limit">Most runs to return.</param>
    public static IQueryable<RegisterSyncRow> PageRegisterSyncs(this TagServiceDbContext context, string? source, RegisterSyncState? state, long beforeId, int limit) => context
        .RegisterSyncs.AsNoTracking()
        .Where(s => s.Id < beforeId && (source == null || s.SourceName == source) && (state == null || s.State == state))
        .OrderByDescending(s => s.Id)
        .Take(limit);

    /// <summary>Refused rows of a run behind a number, in their order.</summary>
    /// <param name="context">The database.</param>
    /// <param name="syncId">The run.</param>
    /// <param name="afterNumber">Last number of the page before; 0 for the beginning.</param>
    /// <param name="limit">Most rows to return.</param>
    public static IQueryable<RejectedRowRow> PageRejectedRows(this TagServiceDbContext context, long syncId, long afterNumber, int limit) => context
        .RejectedRows.AsNoTracking()
        .Where(r => r.SyncId == syncId && r.Number > afterNumber)
        .OrderBy(r => r.Number)
        .Take(limit);

    private static async Task EndAsync(
        TagServiceDbContext context, IQueryable<RegisterSyncRow> runs, string code, string detail, DateTimeOffset now, CancellationToken cancellationToken)
    {
        await runs.Where(s => s.State == RegisterSyncState.Waiting || s.State == RegisterSyncState.Running).ExecuteUpdateAsync(
            set => set.SetProperty(s => s.State, RegisterSyncState.Cancelled).SetProperty(s => s.EndedAt, now).SetProperty(s => s.TryAgainAt, (DateTimeOffset?)null)
                .SetProperty(s => s.ClaimedBy, (Guid?)null).SetProperty(s => s.ClaimedUntil, (DateTimeOffset?)null)
                .SetProperty(s => s.ReasonCode, code).SetProperty(s => s.ReasonDetail, detail),
            cancellationToken);
        // Only a run that goes on needs to know what it came across.
        await context.RegisterSyncAssets.Where(a => runs.Any(s => s.Id == a.SyncId && s.State == RegisterSyncState.Cancelled)).ExecuteDeleteAsync(cancellationToken);
    }

    private static IQueryable<StoredRegisterSource> WithState(TagServiceDbContext context, IQueryable<RegisterSourceRow> sources) => sources.Select(s => new StoredRegisterSource(
        s,
        context.RegisterSyncs.Where(r => r.SourceName == s.Name).OrderByDescending(r => r.Id).FirstOrDefault(),
        context.RegisterRows.LongCount(r => r.SourceName == s.Name)));
}
