using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;
using TagService.Storage.Fitting;

namespace TagService.Service.Tests.Fitting;

/// <summary>Rounds of fitting through the real host. Assets and places are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class FittingWorklistTests(TestDatabase server)
{
    [Fact]
    public async Task List_PageByPage_HasEachAssetWithoutATagOncePlaceByPlace()
    {
        (AssetRecord, string?)[] assets =
        [
            FittingHost.Asset("a", location: "Works B"), FittingHost.Asset("b", location: "Works A"), FittingHost.Asset("c"), FittingHost.Asset("d", location: "Works A"),
            FittingHost.Asset("e", location: "Works \"B\"; / ü"), FittingHost.Asset("f", location: "Works A"),
        ];
        await using var host = await FittingHost.StartAsync(server, "work_pages", assets);
        await host.RecordAsync(await host.InstructionAsync("d"), ("identity", "urn:epc:tag:giai-96:0.9521141.9"));

        var seen = new List<(string?, string)>();
        for (var next = "/v1/fitting-worklist?limit=2"; next is not null;)
        {
            using var answer = await host.Client.GetAsync(next);
            var page = (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
            Assert.InRange(page["items"]!.AsArray().Count, 1, 2);
            seen.AddRange(page["items"]!.AsArray().Select(i => ((string?)i!["locationName"], (string)i["assetId"]!)));
            next = answer.Headers.TryGetValues("Link", out var links) ? links.Single()[1..links.Single().IndexOf('>', StringComparison.Ordinal)] : null;
            Assert.Equal(next is null, page["nextAfter"] is null);
        }

        Assert.Equal(["a", "b", "c", "e", "f"], seen.Select(s => s.Item2).Order());
        // Assets of one place stand together.
        Assert.Equal(seen.Select(s => s.Item1).Distinct().Count(), 1 + seen.Zip(seen.Skip(1)).Count(p => p.First.Item1 != p.Second.Item1));
    }

    [Fact]
    public async Task List_ByPlace_KnowsTheTreeItsAliasesAndTheRegistersWords()
    {
        await using var host = await FittingHost.StartAsync(
            server, "work_places",
            FittingHost.Asset("hall", location: "pump  HALL"), FittingHost.Asset("cellar", location: "Cellar 2"), FittingHost.Asset("yard", location: "Yard"), FittingHost.Asset("nowhere"));
        await PutAsync("works", new { name = "Harquith Works" });
        await PutAsync("hall", new { name = "Pump hall", parentId = "works" });
        await PutAsync("cellar", new { name = "Cellar", parentId = "hall", aliases = new[] { "Cellar 2" } });

        Assert.Equal(["cellar", "hall"], await IdsAsync("under=works"));
        Assert.Equal(["cellar"], await IdsAsync("location=Cellar"));
        Assert.Equal(["hall"], await IdsAsync("location=hall"));
        Assert.Equal(["yard"], await IdsAsync("location=yard"));
        Assert.Equal(["cellar"], await IdsAsync("under=Harquith%20works&location=cellar%202"));
        var item = (await host.WorklistAsync("location=cellar"))["items"]![0]!;
        Assert.Equal("cellar", (string?)item["locationId"]);
        Assert.Equal(["Harquith Works", "Pump hall", "Cellar"], item["locationPath"]!.AsArray().Select(n => (string)n!));

        async Task PutAsync(string id, object body)
        {
            using var answer = await host.Client.PutAsJsonAsync($"/v1/locations/{id}", body);
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        }

        async Task<string[]> IdsAsync(string query) =>
            [.. (await host.WorklistAsync(query))["items"]!.AsArray().Select(i => (string)i!["assetId"]!).Order(StringComparer.Ordinal)];
    }

    // What the register has retired is nobody's work, and no number is spent on it.
    [Fact]
    public async Task List_RetiredAsset_IsNotOnItAndItsInstructionSaysSo()
    {
        await using var host = await FittingHost.StartAsync(server, "work_retired", FittingHost.Asset("gone", location: "Yard"), FittingHost.Asset("here", location: "Yard"));
        await host.SetUpNumbersAsync();
        await host.Storage.ScalarAsync("UPDATE assets SET retired_at = now() WHERE asset_id = 'gone'");
        Assert.Equal("here", (string?)Assert.Single((await host.WorklistAsync("location=yard&reserve=true"))["items"]!.AsArray())!["assetId"]);
        var instruction = await host.InstructionAsync("gone");
        Assert.Null(instruction["identity"]);
        Assert.Contains("retired", (string?)instruction["identityNote"], StringComparison.Ordinal);
        Assert.Equal(1L, await host.Storage.CountAsync("reserved_identities"));
    }

    /// <summary>The page's order is that of an index, whose plan reads no more than the page holds.</summary>
    [Fact]
    public async Task List_ManyAssets_ReadsTheIndexOverPlacesAndSortsNothing()
    {
        await using var host = await FittingHost.StartAsync(server, "work_plan", FittingHost.Asset("a", location: "Yard"));
        await host.Storage.ScalarAsync(
            """
            INSERT INTO assets (asset_id, record, location_name, source, updated_at)
            SELECT 'B-' || n, jsonb_build_object('assetId', 'B-' || n), 'Room ' || n % 300, 'push', now() FROM generate_series(1, 20000) AS n
            """);
        await host.Storage.ScalarAsync("ANALYZE assets");
        var sql = await host.Storage.WithContextAsync(c => Task.FromResult(WorklistQueries.Unfitted(c, null).OrderBy(a => a.LocationName).ThenBy(a => a.AssetId).Take(51).ToQueryString()));
        var plan = new StringBuilder();
        await using (var explain = host.Storage.DataSource.CreateCommand($"EXPLAIN {sql.Replace("@p", "51", StringComparison.Ordinal)}"))
        await using (var lines = await explain.ExecuteReaderAsync())
        {
            while (await lines.ReadAsync())
                plan.AppendLine(lines.GetString(0));
        }

        Assert.Contains("ix_assets_location_name_asset_id", plan.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("Sort", plan.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_Looking_TakesNoIdentitiesUntilAsked()
    {
        await using var host = await FittingHost.StartAsync(server, "work_reserve", [.. Enumerable.Range(0, 5).Select(i => FittingHost.Asset($"L-{i}"))]);
        await host.SetUpNumbersAsync();
        Assert.All((await host.WorklistAsync())["items"]!.AsArray(), i => Assert.Null(i!["identity"]));
        Assert.Equal(0L, await host.Storage.CountAsync("reserved_identities"));

        var page = await host.WorklistAsync("reserve=true&limit=3");
        string[] identities = [.. page["items"]!.AsArray().Select(i => (string)i!["identity"]!)];
        Assert.Equal(3, identities.Distinct().Count());
        Assert.Equal(3L, await host.Storage.CountAsync("reserved_identities"));
        // The same ones again, in a list and in an instruction.
        Assert.Equal(identities, (await host.WorklistAsync("reserve=true&limit=3"))["items"]!.AsArray().Select(i => (string)i!["identity"]!));
        Assert.Equal(identities[0], await host.IdentityAsync("L-0"));
    }

    [Fact]
    public async Task List_AssetWithoutSuitableClass_StandsApartWithTheReason()
    {
        var dangerous = new AssetRecord
        {
            AssetId = "G-1", Category = "gas detector", Environment = new() { HazardousArea = new() { Zone = "1", Group = "IIB", TemperatureClass = "T4" } },
        };
        await using var host = await FittingHost.StartAsync(server, "work_none", FittingHost.Asset("L-1"), (dangerous, "Plant"));
        await host.SetUpNumbersAsync();
        var page = await host.WorklistAsync("reserve=true");
        Assert.Equal("L-1", (string?)Assert.Single(page["items"]!.AsArray())!["assetId"]);
        var none = Assert.Single(page["withoutSuitableClass"]!.AsArray())!;
        Assert.Equal("G-1", (string?)none["assetId"]);
        Assert.NotEmpty((string)none["reason"]!);
        Assert.Equal(1, (int)page["totals"]!["assets"]!);
        Assert.Equal(1L, await host.Storage.CountAsync("reserved_identities"));
    }

    /// <summary>The class is that of the recommendation, asked for over the interface: the other way to the same answer.</summary>
    [Fact]
    public async Task List_ByTagClass_HasTheAssetsThatClassIsRecommendedFor()
    {
        await using var host = await FittingHost.StartAsync(
            server, "work_class", FittingHost.Asset("l1"), FittingHost.Asset("p1", "centrifugal pump"), FittingHost.Asset("l2"), FittingHost.Asset("b1", "laptop"));
        var classes = new Dictionary<string, string>();
        foreach (var (id, category) in new[] { ("l1", "ladder"), ("p1", "centrifugal pump"), ("l2", "ladder"), ("b1", "laptop") })
        {
            using var answer = await host.Client.PostAsJsonAsync("/v1/recommendations?include=no-questions", new { assetId = id, category });
            classes[id] = (string)(await answer.Content.ReadFromJsonAsync<JsonNode>())!["recommendation"]!["tagClassId"]!;
        }

        foreach (var wanted in classes.Values.Distinct())
        {
            // Two to a page: an asset of another class takes no place on it.
            var first = await host.WorklistAsync($"tagClass={wanted}&limit=2");
            var found = first["items"]!.AsArray().Select(i => (string)i!["assetId"]!).ToList();
            if ((string?)first["nextAfter"] is { } next)
                found.AddRange((await host.WorklistAsync($"tagClass={wanted}&limit=2&after={next}"))["items"]!.AsArray().Select(i => (string)i!["assetId"]!));
            Assert.Equal(classes.Where(c => c.Value == wanted).Select(c => c.Key).Order(), found.Order());
        }
    }

    [Fact]
    public async Task List_AsCsv_IsQuotedAndHoldsNoFormula()
    {
        var hostile = new AssetRecord { AssetId = "=1+1", Category = "ladder, \"tall\"\nred" };
        await using var host = await FittingHost.StartAsync(server, "work_csv", (hostile, "@place"));
        using var answer = await host.Client.GetAsync("/v1/fitting-worklist?format=csv");
        Assert.Equal("text/csv", answer.Content.Headers.ContentType?.MediaType);
        var text = await answer.Content.ReadAsStringAsync();
        // RFC 4180, section 2: quotes doubled, line ends inside quotes kept, lines ended by CR LF.
        Assert.StartsWith("\"assetId\",\"category\",", text, StringComparison.Ordinal);
        Assert.Contains("\r\n\"'=1+1\",\"ladder, \"\"tall\"\"\nred\",\"'@place\",", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("limit=0", "limit")]
    [InlineData("limit=201", "1 to 200")]
    [InlineData("after=%00", "after")]
    [InlineData("after=bm9uc2Vuc2U", "after")]
    [InlineData("tagClass=unobtainium", "tagClass")]
    [InlineData("under=nowhere", "under")]
    [InlineData("location=elsewhere", "location")]
    [InlineData("format=xml", "format")]
    public async Task List_BadParameter_Is400NamingIt(string query, string reason)
    {
        await using var host = await FittingHost.StartAsync(server, "work_bad");
        using var answer = await host.Client.GetAsync($"/v1/fitting-worklist?{query}");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(reason, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
