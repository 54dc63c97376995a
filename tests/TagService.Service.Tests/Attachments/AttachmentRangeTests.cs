using System.Net.Http.Json;
using System.Text.Json.Nodes;
using TagService.Domain.TagClasses;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using TagService.Storage.Measurements;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

/// <summary>Checks recorded with attachments count as measured ranges, each tag once. Assets and distances are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class AttachmentRangeTests(TestDatabase server) : IAsyncLifetime
{
    private const string Check = "\"tagClassId\":\"hard-metal-mount-large\",\"attachmentMethod\":\"screws\",\"checkEirpDbm\":30";
    private const string Bound = """{"identity":"TAG",CHECK,"answeredAtM":3}""";

    private StorageServices _storage = null!;
    private RunningHost _host = null!;

    private HttpClient Client => _host.Client;

    public async Task InitializeAsync()
    {
        _storage = await StorageServices.CreateMigratedAsync(server, $"ranges_{Guid.NewGuid():N}");
        await _storage.CopyAsync([
            new() { AssetId = "steel", Category = "cabinet", Surface = new() { Material = "steel" } }, new() { AssetId = "wood", Category = "crate", Surface = new() { Material = "oak" } },
            new() { AssetId = "thin", Category = "centrifugal pump" },
        ]);
        _host = await RunningHost.StartAsync(_storage.ConnectionString, "--Roles=api");
    }

    public async Task DisposeAsync()
    {
        await _host.DisposeAsync();
        await _storage.DisposeAsync();
    }

    [Fact]
    public async Task Start_WithACheck_CountsForItsClassOnTheAssetsMaterial()
    {
        var started = await StartAsync("steel", Bound);
        Assert.Equal("""{"counts":true,"tagClassId":"hard-metal-mount-large","materialId":"steel","kind":"answers-at-least"}""", started["checkRange"]!.ToJsonString());
        var finding = Assert.Single(await FindingsAsync());
        Assert.Equal((started.Id(), "answers-at-least", 3.0, 30.0), ((string?)finding["attachmentId"], (string?)finding["kind"], (double)finding["rangeM"]!, (double)finding["reading"]!["eirpDbm"]!));
        Assert.Equal(1, await ComputeAsync());
        Assert.Equal(0, await ComputeAsync());
        Assert.Equal(("hard-metal-mount-large", "steel", 1, 1), await CalibrationAsync());

        // Silent at one distance and answering at another is one finding between the two.
        await StartAsync("steel", """{"identity":"TAG",CHECK,"answeredAtM":3,"silentAtM":5}""");
        await ComputeAsync();
        Assert.Equal(("hard-metal-mount-large", "steel", 2, 1), await CalibrationAsync());
        Assert.Equal(1, (int)(await PairsAsync()).Single()!["between"]!);
    }

    // The single answer, the batch, and the batch again: one tag, one finding.
    [Fact]
    public async Task Batch_AndSingleRepeated_CountOnce()
    {
        var tag = NewTag();
        await StartAsync("steel", Bound.Replace("TAG", tag, StringComparison.Ordinal));
        var line = Bound.Replace("TAG", tag, StringComparison.Ordinal).Replace("CHECK", Check + ",\"assetId\":\"steel\"", StringComparison.Ordinal);
        var other = line.Replace(tag, NewTag(), StringComparison.Ordinal);
        for (var i = 0; i < 2; i++)
        {
            var answers = await Client.BatchAsync($"{line}\n{other}");
            Assert.Equal(["known", i == 0 ? "started" : "known"], answers.SkipLast(1).Select(a => (string?)a["result"]));
            Assert.Null(answers[0]["checkRange"]);
            Assert.Equal(i == 0, (bool?)answers[1]["checkRange"]?["counts"] ?? false);
        }

        Assert.Equal(2, (await FindingsAsync()).Count);
        await ComputeAsync();
        Assert.Equal(("hard-metal-mount-large", "steel", 2, 2), await CalibrationAsync());
    }

    [Fact]
    public async Task Patch_CorrectingOrTakingBack_ReplacesOrTakesTheFindingBack()
    {
        var id = (await StartAsync("steel", Bound)).Id();
        await ComputeAsync();
        // What has nothing to do with it leaves it as it is, and says nothing of it.
        Assert.Null((await Client.PatchedAsync(id, """{"note":"x","endReason":"fell-off"}"""))["checkRange"]);
        var before = (await FindingsAsync()).Single().ToJsonString();
        Assert.Null((await Client.PatchedAsync(id, """{"endReason":null}"""))["checkRange"]);
        Assert.Equal(before, (await FindingsAsync()).Single().ToJsonString());

        var measured = await Client.PatchedAsync(id, """{"answeredAtM":null,"measuredRangeM":3.5}""");
        Assert.Equal("measured", (string?)measured["checkRange"]!["kind"]);
        Assert.Equal(3.5, (double)(await FindingsAsync()).Single()["rangeM"]!);
        Assert.Equal("wood", (string?)(await Client.PatchedAsync(id, """{"assetId":"wood"}"""))["checkRange"]!["materialId"]);
        await ComputeAsync();
        // Nothing is left on steel.
        Assert.Equal(("hard-metal-mount-large", "wood", 1, 0), await CalibrationAsync());

        Assert.Equal("checkEirpDbm", (string?)(await Client.PatchedAsync(id, """{"checkEirpDbm":null}"""))["checkRange"]!["field"]);
        Assert.Empty(await FindingsAsync());
        await Client.PatchedAsync(id, """{"checkEirpDbm":30}""");
        Assert.Single(await FindingsAsync());
        await Client.PatchedAsync(id, """{"endReason":"never-happened"}""");
        Assert.Empty(await FindingsAsync());
        await ComputeAsync();
        Assert.Equal(0L, await _storage.CountAsync("range_calibrations"));
        await Client.PatchedAsync(id, """{"endReason":null}""");
        Assert.Single(await FindingsAsync());
    }

    [Fact]
    public async Task Start_AFactMissing_IsRecordedAndSaysWhatIsMissingUntilItIsThere()
    {
        var started = await StartAsync("thin", Bound);
        Assert.Equal((false, "surface.material"), ((bool)started["checkRange"]!["counts"]!, (string?)started["checkRange"]!["field"]));
        Assert.Contains("material", (string?)started["checkRange"]!["because"], StringComparison.Ordinal);
        Assert.Equal("checkEirpDbm", (string?)(await StartAsync("steel", """{"identity":"TAG","tagClassId":"hard-metal-mount-large","answeredAtM":3}"""))["checkRange"]!["field"]);
        Assert.Equal("tagClassId", (string?)(await StartAsync("steel", """{"identity":"TAG","checkEirpDbm":30,"answeredAtM":3}"""))["checkRange"]!["field"]);
        Assert.Null((await StartAsync("steel", """{"identity":"TAG"}"""))["checkRange"]);
        Assert.Empty(await FindingsAsync());
        Assert.Equal(0, await ComputeAsync());

        // The register learns the material; the check sent once more counts, though the attachment does not change.
        await _storage.ScalarAsync("""UPDATE assets SET record = record || '{"surface":{"material":"cast iron"}}' WHERE asset_id = 'thin'""");
        var again = await Client.PatchedAsync(started.Id(), """{"answeredAtM":3}""");
        Assert.Empty(again["changed"]!.AsArray());
        Assert.Equal((true, "cast-iron"), ((bool)again["checkRange"]!["counts"]!, (string?)again["checkRange"]!["materialId"]));
        Assert.Single(await FindingsAsync());
    }

    // Marks are taken in the transaction that keeps the posterior: a process that dies leaves them, and writers in between lose nothing.
    [Fact]
    public async Task Compute_WhileCheckersWrite_EndsWithAllOfThem()
    {
        const int writers = 6, each = 8;
        using var stop = new CancellationTokenSource();
        var computing = Task.WhenAll(Enumerable.Range(0, 2).Select(_ => Task.Run(async () =>
        {
            while (!stop.IsCancellationRequested)
                await ComputeAsync();
        })));
        await Task.WhenAll(Enumerable.Range(0, writers).Select(async w =>
        {
            for (var i = 0; i < each; i++)
                await StartAsync(w % 2 == 0 ? "steel" : "wood", Bound);
        }));
        await stop.CancelAsync();
        await computing;
        await ComputeAsync();
        Assert.Equal(writers * each, (int)(long)(await _storage.ScalarAsync("SELECT sum(observations) FROM range_calibrations"))!);
        Assert.Equal(0L, await _storage.CountAsync("range_calibrations_due"));
    }

    // What was recorded reaches recommendations by way of the worker, without anybody asking.
    [Fact]
    public async Task Worker_AfterChecks_TeachesRecommendations()
    {
        await using var worker = await RunningHost.StartAsync(_storage.ConnectionString, "--Roles=worker");
        for (var i = 0; i < 5; i++)
            await StartAsync("steel", """{"identity":"TAG",CHECK,"measuredRangeM":2}""");
        for (var waited = 0; (await PairsAsync()).Count == 0 && waited < 300; waited++)
            await Task.Delay(100);
        Assert.Equal(("hard-metal-mount-large", "steel", 5, 0), await CalibrationAsync());
    }

    private Task<JsonNode> StartAsync(string asset, string json) =>
        Client.StartedAsync(asset, json.Replace("CHECK", Check, StringComparison.Ordinal).Replace("TAG", NewTag(), StringComparison.Ordinal));

    private async Task<List<JsonNode>> FindingsAsync() =>
        [.. (await Client.GetFromJsonAsync<JsonNode>("/v1/range-measurements"))!["items"]!.AsArray().Select(i => i!)];

    private async Task<JsonArray> PairsAsync() => (await Client.GetFromJsonAsync<JsonNode>("/v1/range-calibrations"))!["items"]!.AsArray();

    private async Task<(string?, string?, int, int)> CalibrationAsync()
    {
        for (var waited = 0; ; waited++)
        {
            // The catalogue is looked at every two seconds.
            var stored = (string?)await _storage.ScalarAsync("SELECT string_agg(tag_class_id || ' ' || material_id || ' ' || observations || ' ' || answers_at, ',') FROM range_calibrations");
            if (await PairsAsync() is [{ } pair])
            {
                var shown = ((string?)pair["tagClassId"], (string?)pair["materialId"], (int)pair["observations"]!, (int)pair["answersAtLeast"]!);
                if ($"{shown.Item1} {shown.Item2} {shown.Item3} {shown.Item4}" == stored || waited == 100)
                    return shown;
            }

            Assert.True(waited < 100, $"Stored: {stored}");
            await Task.Delay(100);
        }
    }

    private async Task<int> ComputeAsync()
    {
        var count = 0;
        while (await _storage.Get<DueCalibrations>().ComputeNextAsync(TagClassCatalogue.BuiltIn.All, default) is not null)
            count++;
        return count;
    }
}
