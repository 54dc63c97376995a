using Microsoft.EntityFrameworkCore;
using TagService.Service.Tests.Database;
using TagService.Storage.Queries;

namespace TagService.Service.Tests.Storage;

[Collection(TestDatabase.Collection)]
public sealed class AssetQueriesTests(TestDatabase server)
{
    [Fact]
    public async Task PageAssets_FromPageToPage_GivesEachAssetOnceInOrdinalOrder()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "queries_pages");
        string[] keys = ["a", "B", "_", "10", "9", "Ä", "ä", "a/b", "a b", "Z", "z", "é", "水", "a-1", "A"];
        await storage.CopyAsync(keys.Select(k => StorageServices.Asset(k)));

        var seen = new List<string>();
        for (var page = await PageAsync(""); page.Count > 0; page = await PageAsync(seen[^1]))
            seen.AddRange(page.Select(p => p.Asset.AssetId));

        Assert.Equal(keys.Order(StringComparer.Ordinal), seen);

        Task<List<StoredAsset>> PageAsync(string after) => storage.WithContextAsync(c => c.PageAssets(after, 4).ToListAsync());
    }

    [Fact]
    public async Task PageAssets_Sql_IsOneStepDownThePrimaryKey()
    {
        await using var storage = StorageServices.On("Host=localhost;Database=never_opened");
        var sql = await storage.WithContextAsync(c => Task.FromResult(c.PageAssets("a", 50).ToQueryString()));
        Assert.Contains("WHERE a.asset_id > @afterAssetId\n    ORDER BY a.asset_id\n    LIMIT @p\n", sql.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.DoesNotContain("OFFSET", sql, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task FindAsset_UnknownKey_IsNull()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "queries_unknown");
        Assert.Null(await storage.WithContextAsync(c => c.FindAssetAsync("nobody", default)));
    }
}
