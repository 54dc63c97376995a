using System.Net.Http.Json;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Hosting;
using TagService.Service.Tests.Storage;
using TagService.Storage.Fitting;

namespace TagService.Service.Tests.Fitting;

/// <summary>One identity for the next tag of an asset, whoever asks, however often and from wherever.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ReservedIdentitiesTests(TestDatabase server)
{
    [Fact]
    public async Task Get_EightAtOnceFromTwoProcesses_AllNameTheSameIdentity()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_race", [.. Enumerable.Range(0, 6).Select(i => FittingHost.Asset($"L-{i}"))]);
        await host.SetUpNumbersAsync();
        await using var process = ServiceProcess.Start(
            "--ConnectionStrings:TagService", host.Storage.ConnectionString, "--Urls=http://127.0.0.1:0", "--Roles=api");
        using var other = new HttpClient { BaseAddress = new((await process.ReadUntilAsync("  Address ")).Split(' ')[^1]) };

        for (var i = 0; i < 6; i++)
        {
            var path = $"/v1/assets/L-{i}/fitting-instruction";
            var asked = await Task.WhenAll(Enumerable.Range(0, 8).Select(k => (k % 2 == 0 ? host.Client : other).GetFromJsonAsync<JsonNode>(path)));
            Assert.Single(asked.Select(a => (string)a!["identity"]!["canonical"]!).Distinct());
        }

        Assert.Equal(6L, await host.Storage.CountAsync("reserved_identities"));
        Assert.Equal(6L, await host.Storage.CountAsync("(SELECT DISTINCT identity FROM reserved_identities) AS d"));
        Assert.Equal(6L, await host.Storage.CountAsync("changes WHERE kind = 'reserved-identity'"));
    }

    [Fact]
    public async Task Reserve_ManyAssetsFromTwoServicesAtOnce_GivesEachAssetOneIdentityOfItsOwn()
    {
        string[] ids = [.. Enumerable.Range(0, 60).Select(i => $"A-{i}")];
        await using var host = await FittingHost.StartAsync(server, "fit_many", [.. ids.Select(i => FittingHost.Asset(i))]);
        await host.SetUpNumbersAsync();
        await using var second = StorageServices.On(host.Storage.ConnectionString);

        // Overlapping selections in opposite orders: what would end in a ring if locks were not taken in one order.
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 12).Select(k =>
        {
            var part = ids.Skip(k * 2).Take(40);
            return (k % 2 == 0 ? host.Storage : second).WithScopedAsync<ReservedIdentities, ReservationOutcome>(
                r => r.ReserveAsync([.. k % 3 == 0 ? part.Reverse() : part], false, default));
        }));

        Assert.All(outcomes, o => Assert.Null(o.Refusal));
        var all = outcomes.SelectMany(o => o.ByAsset).Select(p => (p.Key, p.Value.Identity)).Distinct().ToList();
        Assert.Equal(60, all.Count);
        Assert.Equal(60, all.Select(p => p.Identity).Distinct().Count());
    }

    /// <summary>Tags that were numbered before the service came keep their numbers: the rule begins among them and passes over them.</summary>
    [Fact]
    public async Task Reserve_NumbersThatTagsHaveAlready_ArePassedOver()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_older", FittingHost.Asset("L-1"), FittingHost.Asset("L-2"));
        foreach (var number in new[] { 500, 501, 503 })
        {
            using var answer = await host.Client.PostAsJsonAsync("/v1/assets/L-1/attachments", new { identity = $"urn:epc:tag:giai-96:0.9521141.{number}" });
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        }

        await host.SetUpNumbersAsync(500);
        Assert.Equal("8004:9521141502", await host.IdentityAsync("L-2"));
        Assert.Equal("8004:9521141504", await host.IdentityAsync("L-1", "additional=true"));
    }

    /// <summary>A fitter takes the wrong tag: its identity is used up for both assets, and the first gets another.</summary>
    [Fact]
    public async Task Record_OnAnotherAsset_UsesTheReservationUpToo()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_swapped", FittingHost.Asset("L-1"), FittingHost.Asset("L-2"));
        await host.SetUpNumbersAsync();
        var identity = (await host.IdentityAsync("L-1"))!;
        using (var answer = await host.Client.PostAsJsonAsync("/v1/assets/L-2/attachments", new { identity }))
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        Assert.NotEqual(identity, await host.IdentityAsync("L-1"));
    }

    /// <summary>An entry that never happened leaves the tag free: its identity is still the next one of the asset.</summary>
    [Fact]
    public async Task Record_TakenBackAsAMistake_LeavesTheIdentityReserved()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_mistake", FittingHost.Asset("L-1"), FittingHost.Asset("L-2"));
        await host.SetUpNumbersAsync();
        var identity = (await host.IdentityAsync("L-1"))!;
        using var recorded = await host.Client.PostAsJsonAsync("/v1/assets/L-2/attachments", new { identity });
        var attachment = (await recorded.Content.ReadFromJsonAsync<JsonNode>())!["attachment"]!;
        using var patch = new HttpRequestMessage(HttpMethod.Patch, $"/v1/attachments/{(string)attachment["id"]!}")
        {
            Content = new StringContent("""{"endReason":"never-happened"}""", new System.Net.Http.Headers.MediaTypeHeaderValue("application/merge-patch+json")),
        };
        patch.Headers.TryAddWithoutValidation("If-Match", (string)attachment["eTag"]!);
        using var patched = await host.Client.SendAsync(patch);
        Assert.True(patched.IsSuccessStatusCode, await patched.Content.ReadAsStringAsync());
        Assert.Equal(identity, await host.IdentityAsync("L-1"));
    }

    [Fact]
    public async Task Get_RuleExhausted_SaysSoAndGivesTheInstruction()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_exhausted", FittingHost.Asset("L-1"), FittingHost.Asset("L-2"));
        using (var answer = await host.Client.PutAsJsonAsync(
            "/v1/numbering-rules/assets", new { scheme = "giai-96", companyPrefix = "9521141", nextNumber = 7, lastNumber = 7, isDefault = true }))
        {
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        }

        Assert.Equal("8004:95211417", await host.IdentityAsync("L-1"));
        var second = await host.InstructionAsync("L-2");
        Assert.NotNull(second["fitting"]);
        Assert.Null(second["identity"]);
        Assert.Contains("has 0 numbers left", (string)second["identityNote"]!, StringComparison.Ordinal);
    }
}
