using System.Net;
using System.Text.Json.Nodes;
using Microsoft.Extensions.Logging.Abstractions;
using Npgsql;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using TagService.Storage.Claims;
using TagService.Storage.Measurements;
using TagService.Storage.Recommendations;
using TagService.Storage.Tables;
using TagService.Worker;
using TagService.Worker.Recommendations;
using static TagService.Service.Tests.TagClasses.TagClassClient;

namespace TagService.Service.Tests.TagClasses;

/// <summary>The catalogue in memory: several processes agree, none needs the database to answer.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RecommendationContextSourceTests(TestDatabase server)
{
    private static readonly TagClass Class = TagClassCatalogue.BuiltIn[BuiltIn];

    [Fact]
    public async Task Put_AtOneReplica_ReachesTheOtherAndSurvivesARestart()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "context_replicas");
        await using var first = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        await using var second = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        using var put = await first.Client.PutAsync("own-shared", Own.ToJsonString());
        Assert.Equal(HttpStatusCode.Created, put.StatusCode);
        await ShownAsync(second, HttpStatusCode.OK);
        using var other = await second.Client.GetAsync("/v1/tag-classes/own-shared");
        Assert.Equal(put.Headers.ETag, other.Headers.ETag);
        Assert.Equal(Version(await first.Client.RecommendAsync("{}")), Version(await second.Client.RecommendAsync("{}")));

        await using var third = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        using var known = await third.Client.GetAsync("/v1/tag-classes/own-shared");
        Assert.Equal(HttpStatusCode.OK, known.StatusCode);

        using var deleted = await second.Client.DeleteAsync("own-shared", other.Headers.ETag!.ToString());
        await ShownAsync(first, HttpStatusCode.NotFound);

        static async Task ShownAsync(RunningHost replica, HttpStatusCode expected)
        {
            using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(20));
            for (var status = HttpStatusCode.Unused; status != expected; await Task.Delay(50, limit.Token))
            {
                using var answer = await replica.Client.GetAsync("/v1/tag-classes/own-shared", limit.Token);
                status = answer.StatusCode;
            }
        }
    }

    [Fact]
    public async Task Host_WithoutADatabase_AnswersFromTheBuiltInCatalogueAndRefusesToWrite()
    {
        await using var host = await RunningHost.StartAsync("Host=127.0.0.1;Port=1;Database=x;Username=u", "--Roles=api");
        Assert.Equal(TagClassCatalogue.Version, Version(await host.Client.RecommendAsync("{}")));
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/v1/tag-classes")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.GetAsync("/v1/range-calibrations")).StatusCode);
        using var put = await host.Client.PutAsync("own", Own.ToJsonString());
        Assert.Equal(HttpStatusCode.ServiceUnavailable, put.StatusCode);
        Assert.NotNull(put.Headers.RetryAfter);
        using var deleted = await host.Client.DeleteAsync("own", null);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, deleted.StatusCode);
        using var content = new StringContent(
            """{"measurements":[{"tagClassId":"nfc-label-small","material":"wood","kind":"measured","rangeM":0.03,"reading":{"region":"eu","readerKind":"phone"}}]}""",
            System.Text.Encoding.UTF8, "application/json");
        using var measured = await host.Client.PostAsync("/v1/range-measurements", content);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, measured.StatusCode);
        await Task.Delay(TimeSpan.FromSeconds(5));
        Assert.Single(host.LogLines, l => l.Contains("cannot be read", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Refresh_DatabaseLost_KeepsTheLastCatalogue()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "context_lost");
        await StoreAsync(storage, new() { Id = BuiltIn, Price = new(9, 9, 9, "EUR", 1) });
        var source = storage.Get<RecommendationContextSource>();
        await source.RefreshAsync(default);
        var known = source.Current.CatalogueVersion;
        Assert.NotEqual(TagClassCatalogue.Version, known);

        await server.CreateDatabaseAsync("context_lost");
        await Assert.ThrowsAnyAsync<NpgsqlException>(() => source.RefreshAsync(default));
        await source.TryRefreshAsync(default);
        Assert.Equal(known, source.Current.CatalogueVersion);
    }

    [Fact]
    public async Task Refresh_OverlayThatDoesNotRead_IsLeftOutAndTheRestCounts()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "context_unreadable");
        await StoreAsync(storage, new() { Id = BuiltIn, Price = new(9, 9, 9, "EUR", 1) });
        await storage.ScalarAsync("""INSERT INTO tag_class_overlays VALUES ('strange', '{"id":"strange","own":{"technology":"smoke"}}', now()), ('faulty', '{"id":"faulty","price":{"low":3,"typical":2,"high":1,"currency":"EUR","atQuantity":1}}', now())""");
        var source = storage.Get<RecommendationContextSource>();
        await source.RefreshAsync(default);
        Assert.Equal([BuiltIn], source.Snapshot.Overlays.Keys);
        Assert.Equal(9, source.Snapshot.Find(BuiltIn)!.Price.Typical);
    }

    // The quote's last day is the user's, the clock's day UTC; midnight needs no database.
    [Fact]
    public async Task Current_AfterTheQuotesLastDay_HasThePlanningBandAgain()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "context_midnight");
        await StoreAsync(storage, new() { Id = BuiltIn, Price = new(9, 9, 9, "EUR", 1, new(2026, 3, 1)) });
        var clock = new SetClock(new(2026, 3, 1, 23, 59, 59, TimeSpan.Zero));
        using var source = new RecommendationContextSource(storage.DataSource, clock, NullLogger<RecommendationContextSource>.Instance);
        await source.RefreshAsync(default);
        Assert.Equal(9, source.Snapshot.Find(BuiltIn)!.Price.Typical);
        Assert.Equal(new DateOnly(2026, 3, 1), source.Current.AsOf);
        clock.Now = clock.Now.AddSeconds(1);
        await source.RefreshAsync(default);
        Assert.Equal(Class.Price, source.Snapshot.Find(BuiltIn)!.Price);
        Assert.Equal(new DateOnly(2026, 3, 2), source.Current.AsOf);
    }

    // A posterior of other figures is computed anew from the findings, and the stored row is left to whoever measures next.
    [Fact]
    public async Task Refresh_ClassChangedItsAntenna_ComputesItsCalibrationAnew()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "context_basis");
        var own = Class with { Id = "own" };
        await StoreAsync(storage, new() { Id = "own", Own = own });
        var finding = new RangeMeasurement
        {
            TagClassId = "own", MaterialId = "steel", ThicknessMm = 3, BackingId = "air", LengthMm = 500, WidthMm = 300, AddedStandoffMm = 0,
            Kind = FieldRangeKind.Measured, RangeM = 4, RegionId = "eu", ReaderKind = ReaderKind.Handheld, Polarization = ReaderPolarization.Circular,
            SiteId = "warehouse", TagOrientation = TagOrientation.Any,
        };
        await storage.Get<RangeMeasurementWriter>().StoreAsync([.. Enumerable.Repeat((own, finding), 20)], null, default);
        var source = storage.Get<RecommendationContextSource>();
        await source.RefreshAsync(default);
        var before = Assert.Single(source.Snapshot.Calibrations);
        var stored = await storage.ScalarAsync("SELECT xmin::text FROM range_calibrations");

        await StoreAsync(storage, new() { Id = "own", Own = own with { Antenna = own.Antenna with { ReferenceGainDbi = own.Antenna.ReferenceGainDbi - 3 } } });
        await source.RefreshAsync(default);
        var after = Assert.Single(source.Snapshot.Calibrations);
        // 3 dB less claimed, the same found: 3 dB more shift, a little less for the prior's pull.
        Assert.InRange(after.Posterior.MeanShiftDb - before.Posterior.MeanShiftDb, 2, 3);
        Assert.Equal(stored, await storage.ScalarAsync("SELECT xmin::text FROM range_calibrations"));
    }

    [Fact]
    public async Task Worker_OverlayOrMeasurement_RecomputesTheStoredAnswers()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "context_worker");
        await storage.CopyAsync(Enumerable.Range(0, 5).Select(i => StorageServices.Asset($"a{i}", "centrifugal pump") with
        {
            Surface = new() { Material = i < 3 ? "steel" : "wood" },
        }));
        Assert.Equal(5, await RunAsync());
        Assert.Equal(0, await RunAsync());
        await StoreAsync(storage, new() { Id = BuiltIn, Price = new(900, 900, 900, "EUR", 1) });
        Assert.Equal(5, await RunAsync());
        Assert.Equal(0, await RunAsync());
        var finding = new RangeMeasurement
        {
            TagClassId = BuiltIn, MaterialId = "steel", ThicknessMm = 3, BackingId = "air", LengthMm = 500, WidthMm = 300, AddedStandoffMm = 0,
            Kind = FieldRangeKind.Measured, RangeM = 4, RegionId = "eu", ReaderKind = ReaderKind.Handheld, Polarization = ReaderPolarization.Circular,
            SiteId = "warehouse", TagOrientation = TagOrientation.Any,
        };
        await storage.Get<RangeMeasurementWriter>().StoreAsync([(Class, finding)], null, default);
        // Only those whose surface is, or is taken for, the material measured.
        Assert.Equal(3, await RunAsync());
        Assert.Equal(0, await RunAsync());
        Assert.Equal(3L, await storage.CountAsync("asset_recommendations WHERE material_id = 'steel' AND measured_version <> ''"));
        Assert.Equal(2L, await storage.CountAsync("asset_recommendations WHERE material_id = 'wood' AND measured_version = ''"));
        Assert.Equal(0L, await storage.CountAsync($"asset_recommendations WHERE catalogue_version = '{TagClassCatalogue.Version}'"));

        async Task<int> RunAsync()
        {
            using var job = new RecommendAssetsJob(
                storage.Get<RecommendationClaims>(), storage.Get<RecommendationContextSource>(), new WorkerOptions(), TimeProvider.System,
                NullLogger<RecommendAssetsJob>.Instance);
            return (await job.RunOnceAsync(default)).Assets;
        }
    }

    private static string Version(JsonNode answer) => (string)answer["catalogueVersion"]!;

    private static Task<int> StoreAsync(StorageServices storage, TagClassOverlay overlay) => storage.WithContextAsync(async c =>
    {
        if (await c.TagClassOverlays.FindAsync(overlay.Id) is { } row)
            row.Overlay = overlay;
        else
            c.Add(new TagClassOverlayRow { Id = overlay.Id, Overlay = overlay, UpdatedAt = DateTimeOffset.UnixEpoch });
        return await c.SaveChangesAsync();
    });

    private sealed class SetClock(DateTimeOffset now) : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = now;

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
