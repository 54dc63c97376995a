using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Assets;
using TagService.Service.Tests.Attachments;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Registers;

/// <summary>What registers are told. Assets and identities are invented, under GS1's example prefix 9521141.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RegisterCorrectionsTests(RegisterApiHost host) : IClassFixture<RegisterApiHost>
{
    private const string Root = "/v1/register-corrections";

    // GS1 TDS 2.3, annex E.3: this GIAI-96 and the forms of its identity.
    private const string GiaiHex = "3476451FD40000000000162E";
    private const string GiaiUrn = "urn:epc:tag:giai-96:3.9521141.5678";
    private const string GiaiLink = "https://id.gs1.org/8004/95211415678";

    [Fact]
    public async Task Attach_TagTheRegisterDoesNotKnow_IsToldInEveryFormUntilTheColumnNamesIt()
    {
        await PutAsync("c-attach", null);
        var started = await host.Client.StartedAsync("c-attach", $$"""{"identity":"{{GiaiHex}}"}""");

        var correction = await OfAsync("c-attach");

        Assert.Equal(("attach", "push", null), ((string?)correction!["kind"], (string?)correction["source"], (string?)correction["registerTag"]));
        var tag = Assert.Single(correction["tags"]!.AsArray())!;
        Assert.Equal(("8004:95211415678", GiaiHex, GiaiUrn, GiaiLink), ((string?)tag["identity"], (string?)tag["epcHex"], (string?)tag["uri"], (string?)tag["digitalLink"]));
        Assert.Equal((string?)started["attachment"]!["id"], (string?)correction["attachmentIds"]![0]);

        // Another form of the same identity is the same tag.
        await PutAsync("c-attach", "https://example.org/8004/95211415678");
        Assert.Null(await OfAsync("c-attach"));
        await PutAsync("c-attach", "(8004)95211415678");
        Assert.Null(await OfAsync("c-attach"));
    }

    [Fact]
    public async Task Replace_ColumnNamesAnotherTag_ListsAllThatAreOnTheAsset()
    {
        var (old, one, two) = (AttachmentClient.NewTag(), AttachmentClient.NewTag(), AttachmentClient.NewTag());
        await PutAsync("c-replace", old);
        await host.Client.StartedAsync("c-replace", $$"""{"identity":"{{one}}"}""");
        await host.Client.StartedAsync("c-replace", $$"""{"identity":"{{two}}"}""");

        var correction = await OfAsync("c-replace");

        Assert.Equal(("replace", old), ((string?)correction!["kind"], (string?)correction["registerTag"]));
        Assert.Equal([one, two], correction["tags"]!.AsArray().Select(t => (string?)t!["epcHex"]).Order());
        await PutAsync("c-replace", two);
        Assert.Null(await OfAsync("c-replace"));
    }

    [Fact]
    public async Task End_AttachmentOfTheTagNamedHasEnded_IsToldWithItsReason()
    {
        var tag = AttachmentClient.NewTag();
        await PutAsync("c-end", tag);
        // Named, but never recorded: nobody has told us of it, so there is nothing to tell.
        Assert.Null(await OfAsync("c-end"));
        var id = (string)(await host.Client.StartedAsync("c-end", $$"""{"identity":"{{tag}}"}"""))["attachment"]!["id"]!;
        Assert.Null(await OfAsync("c-end"));
        var before = DateTimeOffset.UtcNow.AddMilliseconds(-1);
        await host.Client.PatchedAsync(id, """{"endReason":"fell-off"}""");

        var correction = await OfAsync("c-end");

        Assert.Equal(("end", "fell-off", id), ((string?)correction!["kind"], (string?)correction["endReason"], (string?)correction["attachmentIds"]![0]));
        Assert.Empty(correction["tags"]!.AsArray());
        Assert.InRange(DateTimeOffset.Parse((string)correction["since"]!, null), before, DateTimeOffset.UtcNow);
        // What was ended belatedly is new to whoever asks for what is new, although the asset is older.
        Assert.Contains("c-end", await IdsAsync($"?since={Uri.EscapeDataString(before.ToString("O"))}"));
        Assert.DoesNotContain("c-end", await IdsAsync($"?since={Uri.EscapeDataString(DateTimeOffset.UtcNow.AddMinutes(1).ToString("O"))}"));
        await PutAsync("c-end", null);
        Assert.Null(await OfAsync("c-end"));
    }

    [Fact]
    public async Task Conflict_TagNamedIsOnAnotherAsset_NamesThatAsset()
    {
        var tag = AttachmentClient.NewTag();
        await PutAsync("c-conflict", tag);
        await PutAsync("c-holder", tag);
        var id = (string)(await host.Client.StartedAsync("c-holder", $$"""{"identity":"{{tag}}"}"""))["attachment"]!["id"]!;

        var correction = await OfAsync("c-conflict");

        Assert.Equal(("conflict", "c-holder", id), ((string?)correction!["kind"], (string?)correction["otherAssetIds"]![0], (string?)correction["attachmentIds"]![0]));
        Assert.Null(await OfAsync("c-holder"));
    }

    [Fact]
    public async Task UnreadableTag_TextThatIsNoIdentity_SaysWhatOneLooksLike()
    {
        await PutAsync("c-unreadable", "=HYPERLINK(\"http://x\")");

        var correction = await OfAsync("c-unreadable");

        Assert.Equal("unreadable-tag", (string?)correction!["kind"]);
        Assert.Contains("urn:epc:id:", (string?)correction["detail"], StringComparison.Ordinal);
        using var csv = await host.Client.GetAsync($"{Root}?format=csv&kind=unreadable-tag");
        var line = (await csv.Content.ReadAsStringAsync()).Split("\r\n").Single(l => l.Contains("c-unreadable", StringComparison.Ordinal));
        Assert.StartsWith("\"unreadable-tag\",\"c-unreadable\",\"push\",\"'=HYPERLINK(\"\"http://x\"\")\",", line, StringComparison.Ordinal);
        using var retired = await host.Client.PutAssetAsync("c-unreadable", """{"registerTag":"=HYPERLINK(\"http://x\")","retired":{}}""");
        Assert.Null(await OfAsync("c-unreadable"));
    }

    [Fact]
    public async Task List_Pages_GoThroughAllKindsInTheOrderOfTheAssets()
    {
        foreach (var i in Enumerable.Range(0, 7))
        {
            await PutAsync($"p-{i}", i % 2 == 0 ? $"no tag {i}" : null);
            if (i % 2 == 1)
                await host.Client.StartedAsync($"p-{i}", $$"""{"identity":"{{AttachmentClient.NewTag()}}"}""");
        }

        var ids = (await IdsAsync("?limit=2")).Where(i => i.StartsWith("p-", StringComparison.Ordinal));
        Assert.Equal(Enumerable.Range(0, 7).Select(i => $"p-{i}"), ids);
        Assert.Equal(["p-1", "p-3", "p-5"], (await IdsAsync("?limit=1&kind=attach&after=p-")).Where(i => i.StartsWith("p-", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("?kind=lost")]
    [InlineData("?source=no%20such")]
    [InlineData("?since=yesterday")]
    [InlineData("?format=pdf")]
    [InlineData("?limit=0")]
    public async Task List_ParametersThatMeanNothing_AreRefused(string query)
    {
        using var answer = await host.Client.GetAsync(Root + query);
        await HostileRequestTests.Problem(answer, HttpStatusCode.BadRequest, "invalid-request");
    }

    private async Task PutAsync(string asset, string? registerTag)
    {
        using var put = await host.Client.PutAssetAsync(asset, new JsonObject { ["registerTag"] = registerTag }.ToJsonString().Replace("\"registerTag\":null", "", StringComparison.Ordinal));
        Assert.True(put.IsSuccessStatusCode, await put.Content.ReadAsStringAsync());
    }

    private async Task<JsonNode?> OfAsync(string asset) => (await host.Client.ListAsync(Root)).SingleOrDefault(c => (string?)c["assetId"] == asset);

    private async Task<string[]> IdsAsync(string query) => [.. (await host.Client.ListAsync(Root + query)).Select(c => (string)c["assetId"]!)];
}
