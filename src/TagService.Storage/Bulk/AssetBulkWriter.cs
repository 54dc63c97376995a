using System.Runtime.CompilerServices;
using Npgsql;

namespace TagService.Storage.Bulk;

/// <summary>
/// Brings any number of assets up to date: new ones are added, those with another content changed, all others left as they are,
/// each with its change in the history and, where the engine reads something else, its mark for the worker. Chunk by chunk, each
/// one transaction; writing the same again does nothing, so that after any failure the whole may be repeated. Several writers at
/// once wait for each other and do not deadlock.
/// </summary>
public sealed class AssetBulkWriter(NpgsqlDataSource dataSource, TimeProvider clock)
{
    /// <summary>Most assets in one transaction: what is in memory, and what waits when another writer wants one of them.</summary>
    public const int ChunkSize = 5000;

    // What is told late at most where hardly anything differs.
    private const int WindowSize = 10 * ChunkSize;
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(100);

    /// <summary>
    /// Writes a stream of assets and tells of each one what happened, in order, once it is committed. Assets are compared some thousands at a
    /// time and written when there is a chunk of those that differ, after 50,000 assets, or when the source lets itself be waited for; an
    /// asset that comes a second time counts a second time. While the database works the source is read on.
    /// </summary>
    /// <param name="assets">Assets that <see cref="AssetContent.FaultOf"/> finds no fault with.</param>
    /// <param name="source">Name of the register source, 1 to 500 characters.</param>
    /// <param name="cancellationToken">Ends before the next chunk; what is committed stays.</param>
    /// <exception cref="ArgumentException">An asset that cannot be stored; what came before it in the stream is or is not written.</exception>
    public async IAsyncEnumerable<AssetWritten> WriteAsync(
        IAsyncEnumerable<AssetToLoad> assets, string source, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        PreparedAsset.CheckSource(source);
        var window = new AssetWindow(dataSource, clock, source);
        var ids = new HashSet<string>(StringComparer.Ordinal);
        var chunk = new List<PreparedAsset>();
        var working = Task.FromResult<IReadOnlyList<AssetWritten>>([]);
        var next = Task.FromResult(false);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        await using var incoming = assets.GetAsyncEnumerator(stop.Token);
        try
        {
            for (var more = true; more;)
            {
                next = incoming.MoveNextAsync().AsTask();
                var waits = ids.Count > 0 && !await ComesSoonAsync(next);
                if (!waits)
                    more = await next;
                var asset = waits || !more ? default : PreparedAsset.Of(incoming.Current, source);
                var finish = waits || !more || ids.Count == WindowSize || ids.Contains(asset.AssetId);
                if (finish || chunk.Count == ChunkSize)
                {
                    foreach (var written in await working)
                        yield return written;
                    working = window.AddAsync(chunk, finish, cancellationToken);
                    chunk = [];
                }

                if (finish)
                {
                    ids.Clear();
                    foreach (var written in await working)
                        yield return written;
                    working = Task.FromResult<IReadOnlyList<AssetWritten>>([]);
                }

                if (waits)
                {
                    more = await next;
                    asset = more ? PreparedAsset.Of(incoming.Current, source) : default;
                }

                if (more)
                {
                    chunk.Add(asset);
                    ids.Add(asset.AssetId);
                }
            }
        }
        finally
        {
            // Whoever stops listening finds nothing still at work behind; what fails now has nobody left to hear it.
            await stop.CancelAsync();
            await Task.WhenAll(working, next).ContinueWith(static _ => { }, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
        }
    }

    /// <summary>Writes a stream of assets and counts.</summary>
    /// <inheritdoc cref="WriteAsync(IAsyncEnumerable{AssetToLoad}, string, CancellationToken)"/>
    public async Task<AssetWriteSummary> CountAsync(IAsyncEnumerable<AssetToLoad> assets, string source, CancellationToken cancellationToken)
    {
        var summary = AssetWriteSummary.None;
        await foreach (var written in WriteAsync(assets, source, cancellationToken))
            summary = summary.Plus(written.Outcome);
        return summary;
    }

    /// <summary>Writes some assets in transactions of their own, trying again what a lost connection broke off.</summary>
    /// <returns>One for each asset, in order.</returns>
    /// <inheritdoc cref="WriteAsync(IAsyncEnumerable{AssetToLoad}, string, CancellationToken)"/>
    public async Task<IReadOnlyList<AssetWritten>> WriteAsync(IReadOnlyList<AssetToLoad> assets, string source, CancellationToken cancellationToken)
    {
        var window = new AssetWindow(dataSource, clock, source);
        var all = new List<AssetWritten>(assets.Count);
        foreach (var run in PreparedAsset.DistinctRuns(assets, source, ChunkSize))
            all.AddRange(await window.AddAsync(run, finish: true, cancellationToken));
        return all;
    }

    /// <summary>
    /// Writes some assets within the caller's transaction, for example together with the position of a sync. Each run of at most
    /// <see cref="ChunkSize"/> different assets is taken in order of the ids; to stay free of deadlocks a transaction writes one such run.
    /// For the rest of the transaction hash and merge joins are off and times are UTC.
    /// </summary>
    /// <returns>One for each asset, in order.</returns>
    /// <exception cref="ArgumentException">An asset that cannot be stored.</exception>
    public async Task<IReadOnlyList<AssetWritten>> WriteAsync(
        NpgsqlTransaction transaction, IReadOnlyList<AssetToLoad> assets, string source, CancellationToken cancellationToken)
    {
        var all = new List<AssetWritten>(assets.Count);
        foreach (var run in PreparedAsset.DistinctRuns(assets, source, ChunkSize))
        {
            var first = all.Count;
            all.AddRange(run.Select(a => new AssetWritten(a.AssetId, AssetOutcome.Unchanged, BroughtBack: false)));
            var connection = transaction.Connection ?? throw new InvalidOperationException("The transaction has ended.");
            var differing = await AssetChunk.DifferingAsync(connection, run, cancellationToken);
            if (differing.Count == 0)
                continue;
            var written = await AssetChunk.WriteAsync(transaction, [.. differing.Select(i => run[i])], source, clock.GetUtcNow(), cancellationToken);
            foreach (var i in differing)
                all[first + i] = written[run[i].AssetId];
        }

        return all;
    }

    /// <summary>Retires assets by id within the caller's transaction, for example those a register lists no more; unknown and retired ones are left alone.</summary>
    /// <param name="transaction">The transaction.</param>
    /// <param name="assetIds">At most <see cref="ChunkSize"/> ids.</param>
    /// <param name="retired">When (now if not said) and why.</param>
    /// <param name="source">Name of the register source.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>Ids of those that were in service.</returns>
    public Task<IReadOnlyList<string>> RetireAsync(
        NpgsqlTransaction transaction, IReadOnlyCollection<string> assetIds, Retirement retired, string source, CancellationToken cancellationToken)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(assetIds.Count, ChunkSize);
        PreparedAsset.CheckSource(source);
        return AssetChunk.RetireAsync(transaction, [.. assetIds], retired, source, clock.GetUtcNow(), cancellationToken);
    }

    private async Task<bool> ComesSoonAsync(Task<bool> next) =>
        next.IsCompleted || await Task.WhenAny(next, Task.Delay(Patience, clock, CancellationToken.None)) == next;
}
