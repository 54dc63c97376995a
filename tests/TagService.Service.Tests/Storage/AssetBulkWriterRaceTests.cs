using Npgsql;
using TagService.Service.Tests.Database;
using TagService.Storage.Bulk;

namespace TagService.Service.Tests.Storage;

/// <summary>Several writers on the same assets, and writers that die. Assets are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AssetBulkWriterRaceTests(TestDatabase server)
{
    /// <summary>Each writer sends all assets in an order of its own, several times with other contents; a deadlock would fail one of them.</summary>
    [Fact]
    public async Task Write_FourWritersOnTheSameAssets_AllEndAndTheHistoryIsAChain()
    {
        const int assets = 600;
        const int writers = 4;
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_race");
        var writer = storage.Get<AssetBulkWriter>();

        await Task.WhenAll(Enumerable.Range(0, writers).Select(w => Task.Run(async () =>
        {
            for (var round = 0; round < 5; round++)
            {
                // 7, 11, ... have no factor in common with 600: a permutation each.
                int[] steps = [7, 11, 13, 17];
                var content = $"kind {w} {round}";
                AssetToLoad[] mine = [.. Enumerable.Range(0, assets).Select(i => Asset($"a{i * steps[w] % assets:000}", content))];
                Assert.Equal(assets, (await writer.WriteAsync(mine, "erp", default)).Count);
            }
        })));

        Assert.Equal(assets, await storage.CountAsync("assets"));
        Assert.Equal(assets, await storage.CountAsync("changes WHERE action = 'created'"));
        // What one change leaves is what the next one finds, and the last is what is there.
        Assert.Equal(0, await storage.CountAsync(
            "(SELECT before, lag(after) OVER (PARTITION BY key ORDER BY id) AS left_behind FROM changes) AS c WHERE before IS DISTINCT FROM left_behind"));
        Assert.Equal(assets, await storage.CountAsync(
            """
            assets AS a JOIN (SELECT DISTINCT ON (key) key, after FROM changes ORDER BY key, id DESC) AS c ON c.key = a.asset_id
            WHERE c.after -> 'record' = a.record AND (c.after ->> 'updatedAt')::timestamptz = a.updated_at
            """));
    }

    /// <summary>The server ends the session in the middle of a chunk, again and again; the writer repeats the chunk.</summary>
    [Fact]
    public async Task Write_SessionsEndedOnTheWay_EndsWithAllAndNothingHalf()
    {
        const int assets = 20_000;
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_killed");
        await using var other = StorageServices.On(storage.ConnectionString);
        var run = Task.Run(() => storage.Get<AssetBulkWriter>().CountAsync(
            Enumerable.Range(0, assets).Select(i => Asset($"a{i:00000}", "pump")).ToAsyncEnumerable(), "erp", default));
        var cut = 0L;
        while (cut < 3 && !run.IsCompleted)
        {
            // Only in the middle of a transaction that has written something.
            cut += (long)(await other.ScalarAsync(
                """
                SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity
                WHERE datname = current_database() AND pid <> pg_backend_pid() AND backend_xid IS NOT NULL
                """))!;
            var seen = await other.CountAsync("assets");
            Assert.True(seen % AssetBulkWriter.ChunkSize == 0, $"{seen} assets are visible: half a chunk.");
            Assert.Equal(seen, await other.CountAsync($"changes WHERE id <= (SELECT max(id) FROM changes) AND key <= 'a{seen - 1:00000}'"));
            await Task.Delay(15);
        }

        var summary = await run;
        Assert.InRange(cut, 1, 100);
        // A chunk whose commit was kept although its session was lost counts as unchanged.
        Assert.Equal(assets, summary.Created + summary.Unchanged);
        Assert.Equal(assets, await other.CountAsync("assets"));
        Assert.Equal(assets, await other.CountAsync("changes"));
        Assert.Equal(assets, await other.CountAsync("recommendations_due"));
    }

    /// <summary>Without anybody who repeats it, a chunk that is broken off leaves nothing behind, and repeating it by hand finishes.</summary>
    [Fact]
    public async Task Write_TransactionLost_KeepsNothingAndTheRepeatFinishes()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_lost");
        await using var other = StorageServices.On(storage.ConnectionString);
        AssetToLoad[] assets = [.. Enumerable.Range(0, 50).Select(i => Asset($"a{i}", "pump"))];
        await other.Get<AssetBulkWriter>().WriteAsync(assets[..10], "erp", default);
        await using (var connection = await storage.DataSource.OpenConnectionAsync())
        {
            await using var transaction = await connection.BeginTransactionAsync();
            var written = await storage.Get<AssetBulkWriter>().WriteAsync(transaction, assets, "other", default);
            Assert.Equal(40, written.Count(w => w.Outcome == AssetOutcome.Created));
            Assert.Equal(1L, await other.ScalarAsync(
                "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND state = 'idle in transaction'"));
            await Assert.ThrowsAnyAsync<NpgsqlException>(() => transaction.CommitAsync());
        }

        Assert.Equal(10, await other.CountAsync("assets WHERE source = 'erp'"));
        Assert.Equal(10, await other.CountAsync("changes"));
        Assert.Equal(10, (await other.Get<AssetBulkWriter>().WriteAsync(assets, "other", default)).Count(w => w.Outcome == AssetOutcome.Changed));
        Assert.Equal(50, await other.CountAsync("assets WHERE source = 'other'"));
    }

    /// <summary>A writer that changes what the engine reads while a worker holds the asset: the mark must not be lost with the worker's own.</summary>
    [Fact]
    public async Task Write_WhileAWorkerHoldsTheAsset_IsMarkedAgain()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_worker");
        var writer = storage.Get<AssetBulkWriter>();
        await writer.WriteAsync([Asset("a", "pump")], "erp", default);
        Task<IReadOnlyList<AssetWritten>> change;
        await using (var claim = await storage.Get<TagService.Storage.Claims.RecommendationClaims>().ClaimAsync(new TagService.Storage.Claims.DueAssets.Marked(), "", 10, default))
        {
            change = Task.Run(() => writer.WriteAsync([Asset("a", "ladder")], "erp", default));
            while ((long)(await storage.ScalarAsync("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'"))! == 0)
                await Task.Delay(5);
            Assert.False(change.IsCompleted);
            await claim!.StoreAsync(
                [new() { AssetId = "a", NoneBecause = "invented", EngineVersion = "e", CatalogueVersion = "c", InputKey = claim.Assets[0].InputKey, RecordHash = claim.Assets[0].RecordHash, ComputedAt = DateTimeOffset.UnixEpoch }],
                default);
        }

        Assert.Equal(AssetOutcome.Changed, (await change)[0].Outcome);
        Assert.Equal(1, await storage.CountAsync("recommendations_due"));
    }

    private static AssetToLoad Asset(string assetId, string category) => new(StorageServices.Asset(assetId, category), null);
}
