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

    private const int Attempts = 4;
    private static readonly TimeSpan Patience = TimeSpan.FromMilliseconds(100);

    /// <summary>
    /// Writes a stream of assets and tells of each one what happened, in order, once it is committed. A chunk is written when it is full
    /// or when the source lets itself be waited for; an asset that comes a second time counts a second time.
    /// </summary>
    /// <param name="assets">Assets that <see cref="AssetContent.FaultOf"/> finds no fault with.</param>
    /// <param name="source">Name of the register source, 1 to 500 characters.</param>
    /// <param name="cancellationToken">Ends before the next chunk; what is committed stays.</param>
    /// <exception cref="ArgumentException">An asset that cannot be stored; what came before it in the stream is or is not written.</exception>
    public async IAsyncEnumerable<AssetWritten> WriteAsync(
        IAsyncEnumerable<AssetToLoad> assets, string source, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var chunk = new List<AssetToLoad>();
        await using var incoming = assets.GetAsyncEnumerator(cancellationToken);
        while (true)
        {
            var next = incoming.MoveNextAsync().AsTask();
            if (chunk.Count == ChunkSize || (chunk.Count > 0 && !await ComesSoonAsync(next)))
            {
                foreach (var written in await WriteAsync(chunk, source, cancellationToken))
                    yield return written;
                chunk.Clear();
            }

            if (!await next)
                break;
            chunk.Add(incoming.Current);
        }

        foreach (var written in await WriteAsync(chunk, source, cancellationToken))
            yield return written;
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
        var all = new List<AssetWritten>(assets.Count);
        var prepared = PreparedAsset.All(assets, source);
        foreach (var run in PreparedAsset.DistinctRuns(prepared, ChunkSize))
        {
            for (var attempt = 1; ; attempt++)
            {
                try
                {
                    await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
                    await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
                    var written = await AssetChunk.WriteAsync(transaction, run, source, clock.GetUtcNow(), cancellationToken);
                    await transaction.CommitAsync(cancellationToken);
                    all.AddRange(written);
                    break;
                }
                catch (NpgsqlException e) when (e.IsTransient && attempt < Attempts)
                {
                    // Where the commit itself was lost and yet kept, the repeat finds the assets unchanged.
                    await Task.Delay(TimeSpan.FromMilliseconds(100 << attempt), clock, cancellationToken);
                }
            }
        }

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
        foreach (var run in PreparedAsset.DistinctRuns(PreparedAsset.All(assets, source), ChunkSize))
            all.AddRange(await AssetChunk.WriteAsync(transaction, run, source, clock.GetUtcNow(), cancellationToken));
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
        return AssetChunk.RetireAsync(transaction, [.. assetIds], retired, source, clock.GetUtcNow(), cancellationToken);
    }

    private async Task<bool> ComesSoonAsync(Task<bool> next) =>
        next.IsCompleted || await Task.WhenAny(next, Task.Delay(Patience, clock, CancellationToken.None)) == next;
}
