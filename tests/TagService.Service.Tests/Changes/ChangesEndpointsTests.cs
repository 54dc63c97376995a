using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Attachments;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Changes;

[Collection(TestDatabase.Collection)]
public sealed class ChangesEndpointsTests(RealHost host) : IClassFixture<RealHost>
{
    [Fact]
    public async Task List_OfOneItem_TellsItsStoryBackwards()
    {
        const string item = "/v1/locations/story";
        var from = DateTimeOffset.UtcNow.AddSeconds(-5);
        await host.Client.GivenAsync((item, """{"name":"One","aliases":["first"]}"""), (item, """{"name":"Two","setting":"cold-store"}"""), ("/v1/locations/other", """{"name":"x"}"""));
        using var deleted = await host.Client.DeleteItemAsync(item);

        var changes = await host.Client.ListAsync("/v1/changes?kind=location&key=story&limit=1");
        Assert.Equal(["deleted", "changed", "created"], changes.Select(c => (string)c["action"]!));
        Assert.Equal([("Two", null), ("One", "Two"), (null, "One")], changes.Select(c => ((string?)c["before"]?["name"], (string?)c["after"]?["name"])));
        Assert.Equal(("first", "cold-store"), ((string?)changes[2]["after"]!["aliases"]![0], (string?)changes[1]["after"]!["setting"]));
        Assert.All(changes, c =>
        {
            Assert.Equal(("location", "story", "unnamed-caller"), ((string?)c["kind"], (string?)c["key"], (string?)c["actor"]));
            Assert.InRange((DateTimeOffset)c["at"]!, from, DateTimeOffset.UtcNow.AddSeconds(5));
        });
        var ids = changes.Select(c => (long)c["id"]!).ToList();
        Assert.Equal(ids.OrderDescending(), ids);
    }

    [Fact]
    public async Task List_ByKind_GivesOnlyThatKindAndNamesAllKinds()
    {
        await host.Client.GivenAsync(
            ("/v1/locations/kinds", """{"name":"x"}"""), ("/v1/read-points/kinds", """{"name":"x","kind":"walked","locationId":"kinds"}"""),
            ("/v1/tag-batches/kinds", """{"tagClassId":"nfc-label-small","price":1.5,"currency":"EUR","receivedOn":"2026-04-17"}"""),
            ("/v1/numbering-rules/kinds", """{"scheme":"giai-96","companyPrefix":"9521141","isDefault":true}"""), ("/v1/tag-classes/nfc-label-small", """{"notes":"x"}"""),
            ("/v1/register-sources/kinds", """{"http":{"address":"https://register.example/"},"mapping":{"rows":[{"target":"/assetId","source":"/id"}]}}"""));
        var asset = await host.Client.NewAssetAsync(); // and with it an attachment
        using var instruction = await host.Client.GetAsync($"/v1/assets/{asset}/fitting-instruction"); // and with it a reserved identity
        Assert.Equal(HttpStatusCode.OK, instruction.StatusCode);
        var kinds = (await (await host.Client.GetAsync("/v1/changes")).JsonAsync())["kinds"]!.AsArray().Select(k => (string)k!).ToList();
        Assert.Equal(["asset", "attachment", "location", "numbering-rule", "read-point", "register-source", "reserved-identity", "tag-batch", "tag-class"], kinds);
        foreach (var kind in kinds)
        {
            var changes = await host.Client.ListAsync($"/v1/changes?kind={kind}&limit=1");
            Assert.NotEmpty(changes);
            Assert.All(changes, c => Assert.Equal(kind, (string?)c["kind"]));
            Assert.All(changes, c => Assert.IsType<JsonObject>(c["after"] ?? c["before"]));
        }

        var all = await host.Client.ListAsync("/v1/changes?limit=2");
        Assert.Equal(all.Count, all.Select(c => (long)c["id"]!).Distinct().Count());
    }

    // Who fitted a tag points to a person: the trail that everybody reads says that it is there and that it changed.
    [Fact]
    public async Task List_OfAnAttachment_HidesWhoFittedItAndSaysThatItChanged()
    {
        var id = (await host.Client.StartedAsync(await host.Client.NewAssetAsync(), $$"""{"identity":"{{AttachmentClient.NewTag()}}","fitterId":"f-4711"}""")).Id();
        await host.Client.PatchedAsync(id, """{"note":"x"}""");
        await host.Client.PatchedAsync(id, """{"fitterId":"f-4712"}""");
        await host.Client.PatchedAsync(id, """{"fitterId":null}""");
        var changes = await host.Client.ListAsync($"/v1/changes?kind=attachment&key={id}");
        Assert.Equal(
            [("(not shown)", null), ("(not shown)", "(not shown, another one)"), ("(not shown)", "(not shown)"), (null, "(not shown)")],
            changes.Select(c => ((string?)c["before"]?["fitterId"], (string?)c["after"]?["fitterId"])));
        Assert.DoesNotContain("f-471", string.Concat(changes.Select(c => c.ToJsonString())), StringComparison.Ordinal);
        var line = await host.Client.BatchAsync($$"""{"identity":"{{AttachmentClient.NewTag()}}","assetId":"{{await host.Client.NewAssetAsync()}}","fitterId":"f-4713"}""");
        var ofBatch = Assert.Single(await host.Client.ListAsync($"/v1/changes?kind=attachment&key={(string?)line[0]["attachmentId"]}"));
        Assert.Equal("(not shown)", (string?)ofBatch["after"]!["fitterId"]);
    }

    [Fact]
    public async Task List_OfRefusedChanges_IsEmpty()
    {
        using var refused = await host.Client.PutItemAsync("/v1/locations/refused", """{"name":"x","parentId":"nowhere"}""");
        using var failed = await host.Client.PutItemAsync("/v1/locations/refused", """{"name":"x"}""", ifMatch: "\"1\"");
        Assert.Empty(await host.Client.ListAsync("/v1/changes?kind=location&key=refused"));
    }

    [Theory]
    [InlineData("kind=locaton", "perhaps location")]
    [InlineData("kind=%00", "accepted: asset, attachment, location")]
    [InlineData("key=a", "key together with kind")]
    [InlineData("kind=location&key=%00", "control character")]
    [InlineData("before=0", "1 or more")]
    [InlineData("before=x", "before")]
    [InlineData("limit=1001", "1 to 1000")]
    public async Task List_UnusableParameter_Is400(string query, string says)
    {
        using var response = await host.Client.GetAsync($"/v1/changes?{query}");
        Assert.Contains(says, (await HostileRequestTests.Problem(response, HttpStatusCode.BadRequest, "invalid-request")).Detail, StringComparison.Ordinal);
    }
}
