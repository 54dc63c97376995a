using System.Globalization;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;

namespace TagService.Service.Tests.Assets;

/// <summary>Invented assets.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ListAssetsFilterTests(TestDatabase server)
{
    [Fact]
    public async Task ListAssets_Filtered_GivesThoseThatFitPageByPage()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_filters");
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        var client = host.Client;
        await client.PostBatchAsync(string.Join('\n', Enumerable.Range(0, 24).Select(i =>
            $$"""{"assetId":"F-{{i:00}}","category":"{{(i % 2 == 0 ? "pump & co" : "ladder")}}","locationName":"Hall {{i % 3}}"{{(i % 4 == 0 ? ""","retired":{}""" : "")}}}""")));
        var first = (await client.GetAssetAsync("F-00"))["updatedAt"]!.GetValue<DateTimeOffset>();
        await Task.Delay(5);
        await client.PatchAssetAsync("F-07", """{"locationName":"Hall 9"}""");
        await storage.ScalarAsync(
            "INSERT INTO asset_recommendations (asset_id, none_because, engine_version, catalogue_version, record_hash, computed_at) VALUES ('F-03', 'invented', '1', '1', '', now())");

        Assert.Equal(Ids(i => i % 2 == 0), await ListAsync("category=pump%20%26%20co"));
        Assert.Equal(Ids(i => i % 2 == 0 && i % 3 == 1), await ListAsync("category=pump%20%26%20co&location=Hall%201"));
        Assert.Equal(Ids(i => i % 4 == 0), await ListAsync("retired=true"));
        Assert.Equal(Ids(i => i % 4 != 0), await ListAsync("retired=false"));
        Assert.Equal(Ids(i => i == 7), await ListAsync($"changedSince={Uri.EscapeDataString(first.AddTicks(10).ToString("O", CultureInfo.InvariantCulture))}"));
        Assert.Equal(Ids(_ => true), await ListAsync($"changedSince={Uri.EscapeDataString(first.ToOffset(TimeSpan.FromHours(2)).ToString("O", CultureInfo.InvariantCulture))}"));
        Assert.Equal(Ids(i => i != 3), await ListAsync("withoutRecommendation=true"));
        Assert.Equal(Ids(i => i == 3), await ListAsync("withoutRecommendation=false"));
        Assert.Empty(await ListAsync("category=no-such"));

        foreach (var bad in (string[])["retired=perhaps", "changedSince=yesterday", "category=%00", $"location={new string('x', 501)}"])
            Assert.Equal(400, (int)(await client.GetAsync($"/v1/assets?{bad}")).StatusCode);

        async Task<List<string>> ListAsync(string query)
        {
            var ids = new List<string>();
            for (var next = $"/v1/assets?limit=5&{query}"; next is not null;)
            {
                using var answer = await client.GetAsync(next);
                answer.EnsureSuccessStatusCode();
                ids.AddRange((await answer.JsonAsync())["items"]!.AsArray().Select(a => (string)a!["assetId"]!));
                next = answer.Headers.TryGetValues("Link", out var links) ? links.Single()[1..links.Single().IndexOf('>', StringComparison.Ordinal)] : null;
            }

            return ids;
        }
    }

    /// <summary>A database that fails for good in the middle of a batch: what is answered is kept, and the last line says where to go on.</summary>
    [Fact]
    public async Task Batch_DatabaseLostOnTheWay_LastLineSaysFromWhereToSendAgain()
    {
        await using var storage = await StorageServices.CreateMigratedAsync(server, "assets_batch_lost");
        // Refuses whatever is written from the marked asset on.
        await storage.ScalarAsync(
            """
            CREATE FUNCTION fail_late() RETURNS trigger LANGUAGE plpgsql AS
              $$ BEGIN IF NEW.asset_id = 'last' THEN RAISE EXCEPTION 'disk full (test)' USING ERRCODE = '53100'; END IF; RETURN NEW; END $$;
            CREATE TRIGGER fail_late BEFORE INSERT ON assets FOR EACH ROW EXECUTE FUNCTION fail_late();
            """);
        await using var host = await RunningHost.StartAsync(storage.ConnectionString, "--Roles=api");
        var lines = Enumerable.Range(0, 12_000).Select(i => $$"""{"assetId":"L-{{i:00000}}"}""").Append("""{"assetId":"last"}""");
        var answers = await host.Client.PostBatchAsync(string.Join('\n', lines));
        var problem = answers[^1];
        Assert.Equal(503, problem.GetProperty("status").GetInt32());
        var from = problem.GetProperty("line").GetInt32();
        Assert.Equal(from - 1, answers.Count - 1);
        Assert.InRange(from, 2, 12_001);
        Assert.Equal(from - 1, await storage.CountAsync("assets"));
    }

    private static string[] Ids(Func<int, bool> which) => [.. Enumerable.Range(0, 24).Where(which).Select(i => $"F-{i:00}")];
}
