using Npgsql;

namespace TagService.Storage.Bulk;

/// <summary>
/// Different assets of one stream, in order, that have been compared and of which those that differ are to be written yet: few changes
/// among many assets make few transactions.
/// </summary>
internal sealed class AssetWindow(NpgsqlDataSource dataSource, TimeProvider clock, string source)
{
    private const int Attempts = 4;

    private readonly List<AssetWritten> _outcomes = [];
    private readonly List<(int Place, PreparedAsset Asset)> _differing = [];

    /// <summary>Compares some more assets, and writes once there is a chunk of those that differ.</summary>
    /// <param name="assets">Assets, none of them in the window yet.</param>
    /// <param name="finish">Write in any case.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>What happened to all assets of the window when they are written, else nothing; then the window is empty.</returns>
    public async Task<IReadOnlyList<AssetWritten>> AddAsync(IReadOnlyList<PreparedAsset> assets, bool finish, CancellationToken cancellationToken)
    {
        if (assets.Count > 0)
        {
            var differing = await RetriedAsync(
                async () =>
                {
                    await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
                    return await AssetChunk.DifferingAsync(connection, assets, cancellationToken);
                },
                cancellationToken);
            _differing.AddRange(differing.Select(i => (_outcomes.Count + i, assets[i])));
            _outcomes.AddRange(assets.Select(a => new AssetWritten(a.AssetId, AssetOutcome.Unchanged, BroughtBack: false)));
        }

        if (!finish && _differing.Count < AssetBulkWriter.ChunkSize)
            return [];
        foreach (var chunk in _differing.Chunk(AssetBulkWriter.ChunkSize))
            await WriteAsync(chunk, cancellationToken);
        _differing.Clear();
        AssetWritten[] written = [.. _outcomes];
        _outcomes.Clear();
        return written;
    }

    private async Task WriteAsync((int Place, PreparedAsset Asset)[] chunk, CancellationToken cancellationToken)
    {
        PreparedAsset[] assets = [.. chunk.Select(c => c.Asset)];
        var written = await RetriedAsync(
            async () =>
            {
                await using var connection = await dataSource.OpenConnectionAsync(cancellationToken);
                await using var transaction = await connection.BeginTransactionAsync(cancellationToken);
                var outcomes = await AssetChunk.WriteAsync(transaction, assets, source, clock.GetUtcNow(), cancellationToken);
                await transaction.CommitAsync(cancellationToken);
                return outcomes;
            },
            cancellationToken);
        foreach (var (place, asset) in chunk)
            _outcomes[place] = written[asset.AssetId];
    }

    private async Task<T> RetriedAsync<T>(Func<Task<T>> work, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await work();
            }
            catch (NpgsqlException e) when (e.IsTransient && attempt < Attempts)
            {
                // Where the commit itself was lost and yet kept, the repeat finds the assets unchanged.
                await Task.Delay(TimeSpan.FromMilliseconds(100 << attempt), clock, cancellationToken);
            }
        }
    }
}
