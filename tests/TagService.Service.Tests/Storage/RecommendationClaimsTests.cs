using System.Collections.Concurrent;
using Npgsql;
using TagService.Domain.Recommendations;
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
            FROM recommendations_due AS d JOIN assets AS a ON a.asset_id = d.asset_id
            WHERE d.asset_id > $1
            ORDER BY d.asset_id
            LIMIT $2
            FOR NO KEY UPDATE OF a SKIP LOCKED
            """,
            ClaimSql.LockMarked);
        Assert.Equal(
            """
            SELECT a.asset_id, a.record::text, a.record_hash, a.input_key
            FROM assets AS a JOIN recommendations_due AS d ON d.asset_id = a.asset_id
            WHERE a.asset_id = ANY ($1)
            ORDER BY a.asset_id
            """,
            ClaimSql.ReadMarked);
        Assert.EndsWith("LIMIT $2\nFOR NO KEY UPDATE OF a SKIP LOCKED", ClaimSql.LockAnswered.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.EndsWith("LIMIT $2\nFOR NO KEY UPDATE SKIP LOCKED", ClaimSql.LockWithoutKey.ReplaceLineEndings("\n"), StringComparison.Ordinal);
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
    [InlineData("e1", "c1", "", "ladder", false)]
    [InlineData("e2", "c1", "", "ladder", true)]
    [InlineData("e1", "c2", "", "ladder", true)]
    [InlineData("e1", "c1", "12345678", "ladder", true)]
    [InlineData("e1", "c1", "", "crate", true)]
    public async Task Look_AfterStoring_FindsOnlyWhatChanged(string engine, string catalogue, string measured, string category, bool due)
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, $"claims_stale_{engine}{catalogue}{measured}{category}");
        await storage.CopyAsync([StorageServices.Asset("a"), StorageServices.Asset("b")]);
        await using (var claim = await ClaimAsync(storage, "", 10))
            await StoreAsync(claim!);
        await storage.CopyAsync([StorageServices.Asset("a", category)]);

        var claims = storage.Get<RecommendationClaims>();
        var found = await claims.LookAsync(b => b == new AnswerBasis(engine, catalogue, "steel", measured), default);
        Assert.Equal(due, found.Count == 1);
        if (!due)
            return;
        await using (var again = await claims.ClaimAsync(found[0], "", 10, default))
        {
            Assert.Equal(category == "crate" ? ["a"] : ["a", "b"], again!.Assets.Select(a => a.AssetId));
            await StoreAsync(again, engine, catalogue, measured);
        }

        Assert.Null(await claims.ClaimAsync(found[0], "", 10, default));
        Assert.Empty(await claims.LookAsync(b => b == new AnswerBasis(engine, catalogue, "steel", measured), default));
        Assert.Equal(2, await storage.CountAsync("asset_recommendations"));
    }

    /// <summary>Rows of a program version that knows neither marks nor keys.</summary>
    [Fact]
    public async Task Look_RowsWithoutKey_AreFoundAndGetTheirs()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "claims_without_key");
        await storage.ScalarAsync("""INSERT INTO assets (asset_id, record, updated_at) VALUES ('a', '{"assetId":"a","category":"ladder","attributes":{}}', now())""");
        var claims = storage.Get<RecommendationClaims>();
        Assert.IsType<DueAssets.WithoutInputKey>(Assert.Single(await claims.LookAsync(_ => true, default)));
        await using (var claim = await claims.ClaimAsync(new DueAssets.WithoutInputKey(), "", 10, default))
            await StoreAsync(claim!);
        Assert.Empty(await claims.LookAsync(_ => true, default));
        Assert.Equal(EngineInput.KeyOf(StorageServices.Asset("a")), await storage.ScalarAsync("SELECT input_key FROM assets"));
        Assert.True((await storage.WithContextAsync(c => c.FindAssetAsync("a", default)))!.RecommendationIsCurrent);
        // The next writer finds the content as it is and brings only the hash up to date.
        await storage.ScalarAsync("UPDATE assets SET source = 'push'");
        await storage.CopyAsync([StorageServices.Asset("a")]);
        Assert.Equal(0, await storage.CountAsync("changes"));
        Assert.Equal(0, await storage.CountAsync("recommendations_due"));
        Assert.Equal(0, await storage.CountAsync("assets WHERE content_hash = ''"));
    }

    /// <summary>Different bases are found by steps down the index, however many rows share one.</summary>
    [Fact]
    public async Task Look_ManyBases_FindsEachOnce()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "claims_bases");
        await storage.CopyAsync(Enumerable.Range(0, 40).Select(i => StorageServices.Asset($"a{i:00}")));
        await using (var claim = await ClaimAsync(storage, "", 40))
            await claim!.StoreAsync([.. claim.Assets.Select((a, i) => Row(a, "class-1", materialId: $"m{i % 7}", measured: i % 2 == 0 ? "" : "0f"))], default);
        var bases = (await storage.Get<RecommendationClaims>().LookAsync(_ => false, default)).Cast<DueAssets.AnsweredOn>().Select(d => d.Basis).ToArray();
        Assert.Equal(14, bases.Length);
        Assert.Distinct(bases);
        var claimed = 0;
        foreach (var basis in bases)
        {
            await using var claim = await storage.Get<RecommendationClaims>().ClaimAsync(new DueAssets.AnsweredOn(basis), "", 40, default);
            claimed += claim!.Assets.Count;
        }

        Assert.Equal(40, claimed);
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
        storage.Get<RecommendationClaims>().ClaimAsync(new DueAssets.Marked(), after, batchSize, default);

    private static Task StoreAsync(RecommendationClaim claim, string engine = "e1", string catalogue = "c1", string measured = "") =>
        claim.StoreAsync([.. claim.Assets.Select(a => Row(a, "class-1", engine, catalogue, "steel", measured))], default);

    private static AssetRecommendationRow Row(
        ClaimedAsset asset, string? tagClassId, string engine = "e1", string catalogue = "c1", string materialId = "steel", string measured = "") => new()
    {
        AssetId = asset.AssetId, TagClassId = tagClassId, P10M = 1.5, P50M = 2, P90M = 3, LifetimeCostPresentValue = 12.34m,
        LifetimeCostCurrency = "EUR", EngineVersion = engine, CatalogueVersion = catalogue, MaterialId = materialId, MeasuredVersion = measured,
        InputKey = asset.InputKey, RecordHash = asset.RecordHash, ComputedAt = DateTimeOffset.UnixEpoch,
    };
}
