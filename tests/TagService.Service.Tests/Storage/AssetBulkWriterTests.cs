using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Npgsql;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Queries;

namespace TagService.Service.Tests.Storage;

/// <summary>Assets are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AssetBulkWriterTests(TestDatabase server)
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

    private static readonly DateTimeOffset Gone = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public async Task Write_FullRecord_IsReadBackUnchanged()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_full");
        await WriteAsync(storage, new AssetToLoad(Full, "Halle 3") { RegisterTag = "E280-1", Retired = new(Gone, "sold") });

        var row = (await storage.WithContextAsync(c => c.FindAssetAsync(Full.AssetId!, default)))!.Asset;
        // jsonb keeps members in an order of its own.
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(AssetRecordJson.Write(Full)), JsonNode.Parse(AssetRecordJson.Write(row.Record))));
        Assert.Equal((Full.Category, "Halle 3", "E280-1", Gone, "sold", "erp"), (row.Category, row.LocationName, row.RegisterTag, row.RetiredAt, row.RetiredReason, row.Source));
        Assert.Equal(row.UpdatedAt, row.FirstSeenAt);

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
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_hash");
        await storage.CopyAsync([Full]);
        var text = (string)(await storage.ScalarAsync("SELECT record::text FROM assets"))!;
        var expected = Convert.ToHexStringLower(SHA256.HashData([1, .. Encoding.UTF8.GetBytes(text)]));
        Assert.Equal(expected, await storage.ScalarAsync("SELECT record_hash FROM assets"));
    }

    [Fact]
    public async Task Write_NewChangedAndSame_AreToldApartAndSameRowsAreNotTouched()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_outcomes");
        await WriteAsync(storage, [.. "abc".Select(c => Asset($"{c}"))]);
        var before = await VersionsAsync(storage);
        await storage.ScalarAsync("DELETE FROM recommendations_due");

        var written = await WriteAsync(
            storage, Asset("d"), Asset("b") with { LocationName = "moved" }, Asset("a"), Asset("c", "crate"),
            // The same with its further fields in another order.
            new(Full, null), new(Full with { Attributes = new Dictionary<string, string>(Full.Attributes.Reverse()) }, null));

        Assert.Equal(
            [AssetOutcome.Created, AssetOutcome.Changed, AssetOutcome.Unchanged, AssetOutcome.Changed, AssetOutcome.Created, AssetOutcome.Unchanged],
            written.Select(w => w.Outcome));
        Assert.Equal(["d", "b", "a", "c", Full.AssetId, Full.AssetId], written.Select(w => w.AssetId));
        var after = await VersionsAsync(storage);
        Assert.Equal(before["a"], after["a"]);
        Assert.NotEqual(before["b"], after["b"]);
        // Where it stands is nothing that the engine reads.
        Assert.Equal($"{Full.AssetId},c,d", await storage.ScalarAsync("SELECT string_agg(asset_id, ',' ORDER BY asset_id) FROM recommendations_due"));
        Assert.Equal(3 + 4, await storage.CountAsync("changes"));
    }

    [Fact]
    public async Task Write_FiftyThousandTwice_SecondTimeTouchesNothing()
    {
        const int assets = 50_000;
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_many");
        var first = await CountAsync(storage, assets);
        Assert.Equal(new(assets, 0, 0), first);
        var before = await storage.ScalarAsync("SELECT md5(string_agg(asset_id || xmin::text || updated_at::text, ',' ORDER BY asset_id)) FROM assets");
        Assert.Equal(new(0, 0, assets), await CountAsync(storage, assets));
        Assert.Equal(before, await storage.ScalarAsync("SELECT md5(string_agg(asset_id || xmin::text || updated_at::text, ',' ORDER BY asset_id)) FROM assets"));
        Assert.Equal(assets, await storage.CountAsync("changes"));
    }

    [Fact]
    public async Task Write_SameAssetManyTimesInOneStream_KeepsEveryStateAndTheLast()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_repeated");
        string[] categories = ["pump", "pump", "crate", "ladder", "pump"];
        var written = await WriteAsync(storage, [.. categories.SelectMany(c => (AssetToLoad[])[Asset("a", c), Asset("b")])]);
        Assert.Equal(
            [AssetOutcome.Created, AssetOutcome.Unchanged, AssetOutcome.Changed, AssetOutcome.Changed, AssetOutcome.Changed],
            written.Where(w => w.AssetId == "a").Select(w => w.Outcome));
        Assert.Equal("pump", await storage.ScalarAsync("SELECT category FROM assets WHERE asset_id = 'a'"));
        Assert.Equal("pump,crate,ladder,pump", await storage.ScalarAsync("SELECT string_agg(after #>> '{record,category}', ',' ORDER BY id) FROM changes WHERE key = 'a'"));
    }

    [Fact]
    public async Task Write_Retired_KeepsTheTimeBringsBackAndSaysSo()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_retired");
        await WriteAsync(storage, Asset("a"), Asset("b"));
        var retired = Asset("a") with { Retired = new(null, "lost") };
        Assert.Equal(AssetOutcome.Changed, (await WriteAsync(storage, retired))[0].Outcome);
        var at = await storage.ScalarAsync("SELECT retired_at FROM assets WHERE asset_id = 'a'");
        Assert.Equal(AssetOutcome.Unchanged, (await WriteAsync(storage, retired))[0].Outcome);
        Assert.Equal(AssetOutcome.Changed, (await WriteAsync(storage, retired with { Retired = new(null, "stolen") }))[0].Outcome);
        Assert.Equal(at, await storage.ScalarAsync("SELECT retired_at FROM assets WHERE asset_id = 'a'"));
        Assert.Equal(AssetOutcome.Changed, (await WriteAsync(storage, retired with { Retired = new(Gone, "stolen") }))[0].Outcome);
        Assert.Equal(AssetOutcome.Unchanged, (await WriteAsync(storage, retired with { Retired = new(null, "stolen") }))[0].Outcome);
        var back = (await WriteAsync(storage, Asset("a"), Asset("b")))[0];
        Assert.Equal((AssetOutcome.Changed, true), (back.Outcome, back.BroughtBack));
        // Retirement is nothing that the engine reads: marked once each, as new ones.
        Assert.Equal(2, await storage.CountAsync("recommendations_due"));
    }

    [Fact]
    public async Task Retire_ByIds_RetiresThoseInServiceWithTheirHistory()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_retire_ids");
        await WriteAsync(storage, Asset("a"), Asset("b") with { Retired = new(Gone, "sold") }, Asset("c"));
        await using var connection = await storage.DataSource.OpenConnectionAsync();
        await using var transaction = await connection.BeginTransactionAsync();
        var done = await storage.Get<AssetBulkWriter>().RetireAsync(transaction, ["c", "b", "a", "nobody"], new(Gone.AddDays(1), "not listed any more"), "erp", default);
        await transaction.CommitAsync();
        Assert.Equal(["a", "c"], done.Order(StringComparer.Ordinal));
        Assert.Equal("not listed any more,sold,not listed any more", await storage.ScalarAsync("SELECT string_agg(retired_reason, ',' ORDER BY asset_id) FROM assets"));
        Assert.Equal(2, await storage.CountAsync("changes WHERE action = 'changed' AND before -> 'retiredAt' IS NULL AND after ->> 'retiredAt' = '2026-03-02T12:00:00+00:00'"));
        Assert.Equal([AssetOutcome.Changed, AssetOutcome.Unchanged], (await WriteAsync(storage, Asset("a"), Asset("b") with { Retired = new(Gone, "sold") })).Select(w => w.Outcome));
    }

    /// <summary>Bulk rows of the history and those of single writes have one shape: both are read by the same code.</summary>
    [Fact]
    public async Task History_OfBulkAndSingleWrites_HasOneShape()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_shape");
        var content = new AssetToLoad(Full, "Halle 3") { RegisterTag = "E280-1", Retired = new(Gone, "sold") };
        await WriteAsync(storage, content);
        await storage.WithContextAsync(async c =>
        {
            var row = (await c.HoldAssetAsync(Full.AssetId!, default))!;
            row.LocationName = "Halle 4";
            return await c.SaveChangesAsync();
        });
        Assert.Equal(
            true,
            await storage.ScalarAsync(
                """
                SELECT (SELECT after FROM changes WHERE action = 'created') = (SELECT before FROM changes WHERE action = 'changed')
                  AND (SELECT after - 'locationName' FROM changes WHERE action = 'created') = (SELECT after - 'locationName' FROM changes WHERE action = 'changed')
                """));
    }

    [Theory]
    [InlineData("")]
    [InlineData("a\0b")]
    public async Task Write_AssetThatCannotBeStored_ThrowsBeforeAnythingIsSent(string assetId)
    {
        await using var storage = StorageServices.On("Host=127.0.0.1;Port=1;Database=never_reached;Username=u");
        await Assert.ThrowsAsync<ArgumentException>(() => WriteAsync(storage, Asset("fine"), Asset(assetId)));
        await Assert.ThrowsAsync<ArgumentException>(() => WriteAsync(storage, Asset("x") with { LocationName = new('x', 501) }));
        Assert.NotNull(AssetContent.FaultOf(new(Full with { Description = "\\\0" }, null)));
        Assert.NotNull(AssetContent.FaultOf(new(Full with { Attributes = new Dictionary<string, string> { ["a"] = "\\u0000 \0" } }, null)));
        // Six characters that only look like the escape.
        Assert.Null(AssetContent.FaultOf(new(Full with { Description = "\\u0000" }, null)));
    }

    /// <summary>COPY itself says nothing when a trigger drops a row; what the server writes and nobody sent is no better.</summary>
    [Fact]
    public async Task Write_ServerFailsInTheMiddle_KeepsNothingOfTheChunk()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_dropped");
        await storage.ScalarAsync(
            """
            CREATE FUNCTION refuse_one() RETURNS trigger LANGUAGE plpgsql AS
              $$ BEGIN IF NEW.asset_id = 'b' THEN RAISE EXCEPTION 'not this one'; END IF; RETURN NEW; END $$;
            CREATE TRIGGER refuse_one BEFORE INSERT ON assets FOR EACH ROW EXECUTE FUNCTION refuse_one();
            """);
        await Assert.ThrowsAsync<PostgresException>(() => WriteAsync(storage, [.. "abc".Select(c => Asset($"{c}"))]));
        Assert.Equal(0, await storage.CountAsync("assets"));
        Assert.Equal(0, await storage.CountAsync("changes"));
    }

    [Fact]
    public async Task Database_RecordOfAnotherAsset_IsRefused()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "bulk_check");
        foreach (var record in (string[])["{}", """{"assetId":"other"}"""])
        {
            var problem = await Assert.ThrowsAsync<PostgresException>(() =>
                storage.ScalarAsync($"INSERT INTO assets (asset_id, record, updated_at) VALUES ('a', '{record}', now())"));
            Assert.Equal(PostgresErrorCodes.CheckViolation, problem.SqlState);
        }
    }

    private static AssetToLoad Asset(string assetId, string category = "ladder") => new(StorageServices.Asset(assetId, category), null);

    private static async Task<IReadOnlyList<AssetWritten>> WriteAsync(StorageServices storage, params AssetToLoad[] assets) =>
        await storage.Get<AssetBulkWriter>().WriteAsync(assets, "erp", default);

    private static Task<AssetWriteSummary> CountAsync(StorageServices storage, int assets) =>
        storage.Get<AssetBulkWriter>().CountAsync(Enumerable.Range(0, assets).Select(i => Asset($"a{i * 7919 % assets}", $"kind {i % 11}")).ToAsyncEnumerable(), "erp", default);

    private static async Task<Dictionary<string, string>> VersionsAsync(StorageServices storage)
    {
        var versions = new Dictionary<string, string>();
        await using var command = storage.DataSource.CreateCommand("SELECT asset_id, xmin::text || ' ' || updated_at::text FROM assets");
        await using var reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
            versions.Add(reader.GetString(0), reader.GetString(1));
        return versions;
    }
}
