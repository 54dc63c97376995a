using Microsoft.Extensions.Logging.Abstractions;
using TagService.Demo;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using TagService.Storage.Claims;
using TagService.Storage.Queries;
using TagService.Storage.Recommendations;
using TagService.Worker;
using TagService.Worker.Recommendations;

namespace TagService.Service.Tests.Worker;

[Collection(TestDatabase.Collection)]
public sealed class RecommendAssetsJobTests(TestDatabase server)
{
    [Fact]
    public async Task RunOnce_NewAssets_StoresWhatTheEngineAnswers()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "job_new");
        AssetRecord[] records = [.. DemoFleet.Generate().Where((_, i) => i % 40 == 0).Select(a => a.Record)];
        await storage.CopyAsync(records);

        var summary = await Job(storage).RunOnceAsync(default);

        Assert.Equal(records.Length, summary.Assets);
        Assert.Equal(summary.WithoutClass, await storage.CountAsync("asset_recommendations WHERE tag_class_id IS NULL"));
        foreach (var record in records)
        {
            var stored = await storage.WithContextAsync(c => c.FindAssetAsync(record.AssetId!, default));
            var expected = RecommendationEngine.Recommend(record).Recommendation;
            Assert.True(stored!.RecommendationIsCurrent);
            Assert.Equal(expected?.TagClass.Id, stored.Recommendation!.TagClassId);
            Assert.Equal(expected?.Method.Id, stored.Recommendation.AttachmentMethodId);
            Assert.Equal(expected?.Range.P50.Value, stored.Recommendation.P50M);
            Assert.Equal(expected is null, stored.Recommendation.NoneBecause is not null);
            Assert.Equal(expected?.Cost.Currency, stored.Recommendation.LifetimeCostCurrency);
            if (expected is not null)
                Assert.Equal(expected.Cost.PresentValue, (double)stored.Recommendation.LifetimeCostPresentValue!.Value, 0.005);
            Assert.Equal((RecommendationEngine.Version, TagClassCatalogue.Version), (stored.Recommendation.EngineVersion, stored.Recommendation.CatalogueVersion));
        }
    }

    [Fact]
    public async Task RunOnce_NothingChanged_TouchesNothing()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "job_idle");
        await storage.CopyAsync(Enumerable.Range(0, 10).Select(i => StorageServices.Asset($"a{i}")));
        await Job(storage).RunOnceAsync(default);
        var before = await storage.ScalarAsync("SELECT string_agg(xmin::text, ',' ORDER BY asset_id) FROM asset_recommendations");
        Assert.Equal(0, (await Job(storage).RunOnceAsync(default)).Assets);
        Assert.Equal(before, await storage.ScalarAsync("SELECT string_agg(xmin::text, ',' ORDER BY asset_id) FROM asset_recommendations"));

        await storage.CopyAsync([StorageServices.Asset("a3", "laptop"), StorageServices.Asset("a7", "laptop"), StorageServices.Asset("a8")]);
        Assert.Equal(2, (await Job(storage).RunOnceAsync(default)).Assets);
        Assert.Equal(0, (await Job(storage).RunOnceAsync(default)).Assets);
    }

    [Fact]
    public async Task RunOnce_TwoWorkersAtOnce_AnswerEachAssetOnce()
    {
        const int assets = 200;
        await using var first = await StorageServices.CreateMigratedAsync(server, "job_two");
        await using var second = StorageServices.On(first.ConnectionString);
        await first.CopyAsync(Enumerable.Range(0, assets).Select(i => StorageServices.Asset($"a{i:000}")));
        var summaries = await Task.WhenAll(
            Task.Run(() => Job(first, batchSize: 3).RunOnceAsync(default)), Task.Run(() => Job(second, batchSize: 3).RunOnceAsync(default)));
        Assert.Equal(assets, summaries.Sum(s => s.Assets));
        Assert.Equal(assets, await first.CountAsync("asset_recommendations"));
    }

    /// <summary>The server ends the job's session between two statements; the retry takes the batch again.</summary>
    [Fact]
    public async Task RunOnce_ConnectionLostOnTheWay_StillAnswersAll()
    {
        const int assets = 300;
        await using var storage = await StorageServices.CreateMigratedAsync(server, "job_lost");
        await using var other = StorageServices.On(storage.ConnectionString);
        await storage.CopyAsync(Enumerable.Range(0, assets).Select(i => StorageServices.Asset($"a{i:000}")));
        var run = Task.Run(() => Job(storage, batchSize: 5).RunOnceAsync(default));
        var cut = 0L;
        for (var i = 0; i < 3; i++)
        {
            while (!run.IsCompleted && await other.CountAsync("asset_recommendations") <= i * 20)
                await Task.Yield();
            cut += (long)(await other.ScalarAsync(
                "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()"))!;
        }

        var summary = await run;
        Assert.InRange(cut, 1, 100);
        Assert.Equal(assets, summary.Assets);
        Assert.Equal(assets, await other.CountAsync("asset_recommendations"));
    }

    [Fact]
    public async Task RunOnce_StoppedOnTheWay_KeepsWholeBatchesAndResumes()
    {
        const int assets = 300;
        await using var storage = await StorageServices.CreateMigratedAsync(server, "job_stopped");
        await storage.CopyAsync(Enumerable.Range(0, assets).Select(i => StorageServices.Asset($"a{i:000}")));
        using var stop = new CancellationTokenSource();
        var run = Task.Run(() => Job(storage, batchSize: 10).RunOnceAsync(stop.Token));
        while (!run.IsCompleted && await storage.CountAsync("asset_recommendations") == 0)
            await Task.Yield();
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => run);

        var kept = await storage.CountAsync("asset_recommendations");
        Assert.InRange(kept, 10, assets - 10);
        Assert.Equal(0, kept % 10);
        Assert.Equal(assets - kept, (await Job(storage).RunOnceAsync(default)).Assets);
    }

    [Fact]
    public async Task Process_KilledOnTheWay_NextOneDoesTheRestAndNothingTwice()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "job_killed");
        await storage.CopyAsync(DemoFleet.Generate().Select(a => a.Record));
        string[] args = ["--ConnectionStrings:TagService", storage.ConnectionString, "--Urls=http://127.0.0.1:0", "--Worker:BatchSize=20", "--Roles=worker"];
        await using (var service = ServiceProcess.Start(args))
        {
            while (!service.HasExited && await storage.CountAsync("asset_recommendations") < 40)
                await Task.Delay(5);
            service.Signal("KILL");
            await service.WaitAsync();
        }

        var kept = await storage.CountAsync("asset_recommendations");
        var total = await storage.CountAsync("assets");
        Assert.InRange(kept, 40, total - 1);
        var before = await FingerprintAsync();
        await using (var service = ServiceProcess.Start(args))
        {
            var line = await service.ReadUntilAsync("Recommendations stored for ");
            Assert.Contains($"stored for {total - kept} assets", line, StringComparison.Ordinal);
            service.Signal("TERM");
            Assert.Equal(0, (await service.WaitAsync()).ExitCode);
            Assert.Single(service.Output, l => l.Contains("Recommendations stored", StringComparison.Ordinal));
        }

        Assert.Equal(total, await storage.CountAsync("asset_recommendations"));
        Assert.Equal(before, await FingerprintAsync());

        // Row versions of those that the killed process had stored.
        Task<object?> FingerprintAsync() => storage.ScalarAsync(
            $"SELECT string_agg(asset_id || xmin::text, ',' ORDER BY asset_id) FROM (SELECT asset_id, xmin FROM asset_recommendations ORDER BY asset_id LIMIT {kept}) AS r");
    }

    private static RecommendAssetsJob Job(StorageServices storage, int batchSize = 50) => new(
        storage.Get<RecommendationClaims>(), storage.Get<RecommendationContextSource>(), new WorkerOptions { BatchSize = batchSize }, TimeProvider.System,
        NullLogger<RecommendAssetsJob>.Instance);
}
