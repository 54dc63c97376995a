using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Npgsql;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Service.Tests.Storage;

[Collection(TestDatabase.Collection)]
public sealed class AssetCopyTests(TestDatabase server)
{
    private static readonly AssetRecord Full = new()
    {
        AssetId = "Pümpe-1/ä", Category = "Kreiselpumpe \"groß\"", Description = "line one\nline two\\", Contents = "水",
        Surface = new() { Material = "cast iron", ThicknessMm = 8.25, CurvatureRadiusMm = 0 },
        Environment = new()
        {
            Setting = Setting.ColdStore, TamperRisk = Level.Medium, IpRequired = ["IP66", "IP68"], FoodContact = false,
            HazardousArea = new() { Zone = "1", Group = "IIB" },
        },
        Reading = new() { ReaderKind = ReaderKind.Handheld, RequiredProbability = 0.95 },
        Attributes = new Dictionary<string, string> { ["serialNo"] = "0001", ["Ort"] = "Halle 3" },
    };

    [Fact]
    public async Task Write_FullRecord_IsReadBackUnchanged()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "copy_full");
        await storage.CopyAsync([Full]);

        var row = await storage.WithContextAsync(c => c.FindAssetAsync(Full.AssetId!, default));
        Assert.NotNull(row);
        // jsonb keeps members in an order of its own.
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(AssetRecordJson.Write(Full)), JsonNode.Parse(AssetRecordJson.Write(row.Asset.Record))));
        Assert.Equal(Full.Category, row.Asset.Category);

        // The column holds what the wire would show: names in camel case, values in kebab case.
        var stored = JsonNode.Parse((string)(await storage.ScalarAsync("SELECT record::text FROM assets"))!)!;
        Assert.Equal("cold-store", (string?)stored["environment"]!["setting"]);
        Assert.Equal(JsonValueKind.False, stored["environment"]!["foodContact"]!.GetValueKind());
        Assert.Null(stored["mounting"]);
    }

    /// <summary>
    /// SHA-256 (FIPS 180-4) by the platform's own library over PostgreSQL's binary form of jsonb: version byte 1, then the text
    /// (PostgreSQL source, jsonb_send; from memory).
    /// </summary>
    [Fact]
    public async Task RecordHash_OfStoredRecord_IsItsSha256()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "copy_hash");
        await storage.CopyAsync([Full]);
        var text = (string)(await storage.ScalarAsync("SELECT record::text FROM assets"))!;
        var expected = Convert.ToHexStringLower(SHA256.HashData([1, .. Encoding.UTF8.GetBytes(text)]));
        Assert.Equal(expected, await storage.ScalarAsync("SELECT record_hash FROM assets"));
    }

    /// <summary>COPY itself says nothing when a trigger drops a row.</summary>
    [Fact]
    public async Task Write_ServerDropsARow_ThrowsAndKeepsNothing()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "copy_dropped");
        await storage.ScalarAsync(
            """
            CREATE FUNCTION drop_one() RETURNS trigger LANGUAGE plpgsql AS
              $$ BEGIN IF NEW.asset_id = 'b' THEN RETURN NULL; END IF; RETURN NEW; END $$;
            CREATE TRIGGER drop_one BEFORE INSERT ON assets FOR EACH ROW EXECUTE FUNCTION drop_one();
            """);
        var problem = await Assert.ThrowsAsync<InvalidOperationException>(() => storage.CopyAsync("abc".Select(c => StorageServices.Asset($"{c}"))));
        Assert.Equal("COPY of assets: 3 rows were sent, the server kept 2.", problem.Message);
        Assert.Equal(0, await storage.CountAsync("assets"));
    }

    [Fact]
    public async Task Write_SourceFailsHalfWay_KeepsNothing()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "copy_half");
        var broken = Enumerable.Range(0, 100).Select(i => i < 50 ? StorageServices.Asset($"a{i}") : throw new IOException("source lost"));
        await Assert.ThrowsAsync<IOException>(() => storage.CopyAsync(broken));
        Assert.Equal(0, await storage.CountAsync("assets"));
    }

    [Fact]
    public async Task Write_AssetExists_FailsAndKeepsTheOldOne()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "copy_twice");
        await storage.CopyAsync([StorageServices.Asset("a", "old")]);
        var problem = await Assert.ThrowsAsync<PostgresException>(() =>
            storage.CopyAsync([StorageServices.Asset("b"), StorageServices.Asset("a", "new")]));
        Assert.Equal(PostgresErrorCodes.UniqueViolation, problem.SqlState);
        Assert.Equal("old", await storage.ScalarAsync("SELECT string_agg(category, ',') FROM assets"));
    }

    [Fact]
    public async Task Database_RecordOfAnotherAsset_IsRefused()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "copy_check");
        foreach (var record in (string[])["{}", """{"assetId":"other"}"""])
        {
            var problem = await Assert.ThrowsAsync<PostgresException>(() =>
                storage.ScalarAsync($"INSERT INTO assets (asset_id, record, updated_at) VALUES ('a', '{record}', now())"));
            Assert.Equal(PostgresErrorCodes.CheckViolation, problem.SqlState);
        }
    }
}
