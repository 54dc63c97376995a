using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using TagService.Service.Tests.TagClasses;

namespace TagService.Service.Tests.TagBatches;

/// <summary>Tag batches as HTTP. All deliveries are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class TagBatchesEndpointsTests(RealHost host) : IClassFixture<RealHost>
{
    private const string Root = "/v1/tag-batches";

    [Fact]
    public async Task Put_NewBatch_IsCreatedShownReplacedAndDeleted()
    {
        using var created = await host.Client.PutItemAsync(
            $"{Root}/life",
            $$"""
            {"tagClassId":"{{TagClassClient.BuiltIn.ToUpperInvariant()}}","supplierLot":"L-0417 / 3","quantity":500,"price":3.40004,"currency":"EUR","receivedOn":"2026-04-17",
             "epcScheme":"GIAI-96","epcPrefix":"9521141","note":"second delivery"}
            """,
            ifNoneMatch: "*");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        using var read = await host.Client.GetItemAsync($"{Root}/life");
        var shown = await read.JsonAsync();
        Assert.Equal(created.Headers.ETag, read.Headers.ETag);
        Assert.Equal((await created.JsonAsync()).ToJsonString(), shown.ToJsonString());
        Assert.Equal((TagClassClient.BuiltIn, 3.4m, "2026-04-17"), ((string?)shown["tagClassId"], (decimal)shown["price"]!, (string?)shown["receivedOn"]));
        using var same = await host.Client.PutItemAsync($"{Root}/life", Without(shown, "updatedAt", "use"), ifMatch: read.Headers.ETag!.ToString());
        Assert.Equal((HttpStatusCode.OK, created.Headers.ETag), (same.StatusCode, same.Headers.ETag));

        using var replaced = await host.Client.PutItemAsync($"{Root}/life", """{"tagClassId":"nfc-label-small"}""");
        Assert.Null((await replaced.JsonAsync())["price"]);
        using var late = await host.Client.PutItemAsync($"{Root}/life", """{"tagClassId":"nfc-label-small"}""", ifMatch: created.Headers.ETag!.ToString());
        await HostileRequestTests.Problem(late, HttpStatusCode.PreconditionFailed, "precondition-failed");
        using var deleted = await host.Client.DeleteItemAsync($"{Root}/life", replaced.Headers.ETag!.ToString());
        using var gone = await host.Client.GetItemAsync($"{Root}/life");
        Assert.Equal((HttpStatusCode.NoContent, HttpStatusCode.NotFound), (deleted.StatusCode, gone.StatusCode));
    }

    [Theory]
    [InlineData("""{"tagClassId":"hard-metal-mont-large"}""", 400, "#/tagClassId", "perhaps hard-metal-mount-large")]
    [InlineData("""{"tagClassId":"a\u0000"}""", 400, "#/tagClassId", "/v1/tag-classes")]
    [InlineData("""{"quantity":3}""", 400, "#/tagClassId", null)]
    [InlineData("""{"tagClassId":"nfc-label-small","quantity":0}""", 400, "#/quantity", "1 to 1000000000")]
    [InlineData("""{"tagClassId":"nfc-label-small","price":-1,"currency":"EUR"}""", 400, "#/price", "0 to 1000000")]
    [InlineData("""{"tagClassId":"nfc-label-small","price":1}""", 422, "#/currency", null)]
    [InlineData("""{"tagClassId":"nfc-label-small","currency":"EUR"}""", 422, "#/price", null)]
    [InlineData("""{"tagClassId":"nfc-label-small","price":1,"currency":"euro"}""", 400, "#/currency", null)]
    [InlineData("""{"tagClassId":"nfc-label-small","receivedOn":"17.04.2026"}""", 400, "#/receivedOn", "a date")]
    [InlineData("""{"tagClassId":"nfc-label-small","supplierLot":"a\u0000"}""", 400, "#/supplierLot", null)]
    public async Task Put_FaultyBatch_IsRefusedNamingThePlace(string body, int status, string pointer, string? accepted)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/faulty", body);
        var problem = await HostileRequestTests.Problem(put, (HttpStatusCode)status, status == 400 ? "invalid-fields" : "contradictory-fields");
        var error = Assert.Single(problem.Errors!, e => e.Pointer == pointer);
        if (accepted is not null)
            Assert.Contains(accepted, error.Accepted, StringComparison.Ordinal);
    }

    [Fact]
    public async Task List_ByClass_GivesItsBatchesPageByPage()
    {
        await host.Client.GivenAsync(
            [.. Enumerable.Range(0, 5).Select(i => ($"{Root}/list-{i}", $$"""{"tagClassId":"{{(i % 2 == 0 ? "swing-tag" : "hf-label")}}"}"""))]);
        Assert.Equal(["list-0", "list-2", "list-4"], await host.Client.IdsAsync($"{Root}?tagClass=swing-tag&limit=2"));
        Assert.Equal(["list-0", "list-1", "list-2", "list-3", "list-4"], (await host.Client.IdsAsync($"{Root}?limit=1")).Where(id => id.StartsWith("list", StringComparison.Ordinal)));
    }

    // No lock, only the row's version: whoever states what it saw learns that it was overtaken, the others follow one another.
    [Fact]
    public async Task Put_ManyAtOnce_OneTagWinsAndWithoutTagAllAreTaken()
    {
        using var created = await host.Client.PutItemAsync($"{Root}/race", """{"tagClassId":"nfc-label-small"}""");
        var tag = created.Headers.ETag!.ToString();
        var answers = await Task.WhenAll(Enumerable.Range(1, 8).Select(i => host.Client.PutItemAsync($"{Root}/race", $$"""{"tagClassId":"nfc-label-small","quantity":{{i}}}""", ifMatch: tag)));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK);
        Assert.Equal(7, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
        var creations = await Task.WhenAll(Enumerable.Range(1, 3).Select(i => host.Client.PutItemAsync($"{Root}/race-new", $$"""{"tagClassId":"nfc-label-small","quantity":{{i}}}""")));
        Assert.Single(creations, a => a.StatusCode == HttpStatusCode.Created);
        Assert.Equal(2, creations.Count(a => a.StatusCode == HttpStatusCode.OK));
    }

    private static string Without(JsonNode item, params string[] members)
    {
        var copy = (JsonObject)item.DeepClone();
        foreach (var member in members)
            copy.Remove(member);
        return copy.ToJsonString();
    }
}
