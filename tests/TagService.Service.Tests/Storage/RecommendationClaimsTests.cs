using System.Collections.Concurrent;
using Npgsql;
using TagService.Service.Tests.Database;
using TagService.Storage.Claims;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Service.Tests.Storage;

[Collection(TestDatabase.Collection)]
public sealed class RecommendationClaimsTests(TestDatabase server)
{
    [Fact]
    public void Sql_OfTheClaim_LocksSkipsAndLooksAgain()
    {
        Assert.Equal(
            """
            SELECT a.asset_id
            FROM assets AS a
            LEFT JOIN asset_recommendations AS r ON r.asset_id = a.asset_id
            WHERE a.asset_id > $3
              AND (r.asset_id IS NULL OR r.record_hash <> a.record_hash
                   OR r.engine_version <> $1 OR r.catalogue_version <> $2)
            ORDER BY a.asset_id
            LIMIT $4
            FOR NO KEY UPDATE OF a SKIP LOCKED
            """,
            ClaimSql.Lock);
        Assert.Equal(
            """
            SELECT a.asset_id, a.record::text, a.record_hash
            FROM assets AS a
            LEFT JOIN asset_recommendations AS r ON r.asset_id = a.asset_id
            WHERE a.asset_id = ANY ($3)
              AND (r.asset_id IS NULL OR r.record_hash <> a.record_hash
                   OR r.engine_version <> $1 OR r.catalogue_version <> $2)
            ORDER BY a.asset_id
            """,
            ClaimSql.Read);
        Assert.Contains("ON CONFLICT (asset_id) DO UPDATE", ClaimSql.Store, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Claim_FourWorkersAtOnce_HandleEachAssetOnce()
    {
        const int assets = 3000;
        await using var storage = await StorageServices.CreateMigratedAsync(server, "claims_workers");
        await storage.CopyAsync(Enumerable.Range(0, assets).Select(i => StorageServices.Asset($"a{i:0000}")));
        var handled = new ConcurrentBag<string>();

        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(async () =>
        {
            for (var after = ""; await ClaimAsync(storage, after, batchSize: 7) is { } claim; after = claim.LastAssetId)
                await using (claim)
                {
                    foreach (var asset in claim.Assets)
                        handled.Add(asset.AssetId);
                    await StoreAsync(claim);
                }
        })));

        Assert.Equal(assets, handled.Distinct().Count());
        Assert.Equal(assets, handled.Count);
        Assert.Equal(assets, await storage.CountAsync("asset_recommendations"));
    }

    [Fact]
    public async Task Claim_WhileAnotherHolds_TakesTheNextOnes()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "claims_held");
        await storage.CopyAsync("abcd".Select(c => StorageServices.Asset($"{c}")));
        await using var first = await ClaimAsync(storage, "", 2);
        await using var second = await ClaimAsync(storage, "", 10);
        Assert.Equal(["a", "b"], first!.Assets.Select(a => a.AssetId));
        Assert.Equal(["c", "d"], second!.Assets.Select(a => a.AssetId));
        Assert.Null(await ClaimAsync(storage, "", 10));
    }

    /// <summary>The server ends the session of a process that died; here it is ended by hand.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Claim_WorkerLostBeforeStoring_GivesTheAssetsBack(bool killed)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, $"claims_lost_{killed}");
        await storage.CopyAsync("abcd".Select(c => StorageServices.Asset($"{c}")));
        var lost = await ClaimAsync(storage, "", 2);
        if (killed)
        {
            Assert.Equal(1L, await storage.ScalarAsync(
                "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND state = 'idle in transaction'"));
            await Assert.ThrowsAnyAsync<NpgsqlException>(() => StoreAsync(lost!));
        }

        await lost!.DisposeAsync();
        Assert.Equal(0, await storage.CountAsync("asset_recommendations"));
        await using var next = await ClaimAsync(storage, "", 10);
        Assert.Equal(["a", "b", "c", "d"], next!.Assets.Select(a => a.AssetId));
        await StoreAsync(next);
        Assert.Equal(4, await storage.CountAsync("asset_recommendations"));
    }

    [Theory]
    [InlineData("e1", "c1", false, false)]
    [InlineData("e2", "c1", false, true)]
    [InlineData("e1", "c2", false, true)]
    [InlineData("e1", "c1", true, true)]
    public async Task Claim_AfterStoring_OnlyWhatChanged(string engine, string catalogue, bool recordChanged, bool claimed)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, $"claims_stale_{engine}{catalogue}{recordChanged}");
        await storage.CopyAsync([StorageServices.Asset("a")]);
        await using (var claim = await ClaimAsync(storage, "", 10))
            await StoreAsync(claim!);
        if (recordChanged)
            await storage.ScalarAsync("""UPDATE assets SET record = record || '{"category":"crate"}'""");

        await using var again = await storage.Get<RecommendationClaims>().ClaimAsync("", 10, engine, catalogue, default);
        Assert.Equal(claimed, again is not null);
        if (again is not null)
        {
            await StoreAsync(again);
            Assert.Equal(1, await storage.CountAsync("asset_recommendations"));
        }
    }

    /// <summary>The ETag of an asset is its xmin: a claim must not change it.</summary>
    [Fact]
    public async Task Claim_OfAnAsset_LeavesItsVersion()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "claims_version");
        await storage.CopyAsync([StorageServices.Asset("a")]);
        var before = await storage.WithContextAsync(c => c.FindAssetAsync("a", default));
        await using (var claim = await ClaimAsync(storage, "", 1))
            await StoreAsync(claim!);
        var after = await storage.WithContextAsync(c => c.FindAssetAsync("a", default));
        Assert.Equal(before!.Asset.Version, after!.Asset.Version);
        Assert.Null(before.Recommendation);
        Assert.True(after.RecommendationIsCurrent);
        Assert.Equal((1.5, 12.34m, "EUR"), (after.Recommendation!.P10M, after.Recommendation.LifetimeCostPresentValue, after.Recommendation.LifetimeCostCurrency));
    }

    /// <summary>An answer is either a class or a reason; the database holds that.</summary>
    [Fact]
    public async Task Store_NeitherClassNorReason_IsRefused()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "claims_check");
        await storage.CopyAsync([StorageServices.Asset("a")]);
        await using var claim = await ClaimAsync(storage, "", 1);
        var problem = await Assert.ThrowsAsync<PostgresException>(() => claim!.StoreAsync([Row(claim.Assets[0], tagClassId: null)], default));
        Assert.Equal("ck_asset_recommendations_class_or_reason", problem.ConstraintName);
    }

    private static Task<RecommendationClaim?> ClaimAsync(StorageServices storage, string after, int batchSize) =>
        storage.Get<RecommendationClaims>().ClaimAsync(after, batchSize, "e1", "c1", default);

    private static Task StoreAsync(RecommendationClaim claim) => claim.StoreAsync([.. claim.Assets.Select(a => Row(a, "class-1"))], default);

    private static AssetRecommendationRow Row(ClaimedAsset asset, string? tagClassId) => new()
    {
        AssetId = asset.AssetId, TagClassId = tagClassId, P10M = 1.5, P50M = 2, P90M = 3, LifetimeCostPresentValue = 12.34m,
        LifetimeCostCurrency = "EUR", EngineVersion = "e1", CatalogueVersion = "c1", RecordHash = asset.RecordHash, ComputedAt = DateTimeOffset.UnixEpoch,
    };
}
