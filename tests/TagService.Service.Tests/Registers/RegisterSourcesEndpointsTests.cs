using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Registers;

/// <summary>Register sources as HTTP. All registers are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RegisterSourcesEndpointsTests(RegisterApiHost host) : IClassFixture<RegisterApiHost>
{
    private const string Root = "/v1/register-sources";

    internal const string Http = """
        {"http":{"address":"https://register.example/assets","rowsPointer":"/items","paging":"cursor","cursorPointer":"/next","cursorParameter":"cursor",
         "changedSinceParameter":"since","changedSinceOverlapMinutes":2.5,"credentialName":"works"},
         "mapping":{"rows":[{"target":"/assetId","source":"/id"},{"target":"/surface/thicknessMm","source":"/wall/mm","decimalMark":"comma"}],"notKept":["/keeper"]},
         "everyMinutes":60,"tagAuthority":"register","whenMissing":"keep","mostMissingShare":0.1,"fullPassEveryHours":24}
        """;

    [Fact]
    public async Task Put_NewSource_IsCreatedShownReplacedAndDeleted()
    {
        using var created = await host.Client.PutItemAsync($"{Root}/life", Http, ifNoneMatch: "*");
        Assert.True(created.StatusCode == HttpStatusCode.Created, await created.Content.ReadAsStringAsync());
        using var read = await host.Client.GetItemAsync($"{Root}/life");
        var text = await read.Content.ReadAsStringAsync();
        var shown = JsonNode.Parse(text)!;
        Assert.Equal(created.Headers.ETag, read.Headers.ETag);
        Assert.Equal((await created.JsonAsync()).ToJsonString(), shown.ToJsonString());
        Assert.Equal((2.5, "works", "cursor"), ((double)shown["http"]!["changedSinceOverlapMinutes"]!, (string?)shown["http"]!["credentialName"], (string?)shown["http"]!["paging"]));
        Assert.Equal(("register", "keep", 24, "comma"), ((string?)shown["tagAuthority"], (string?)shown["whenMissing"], (int)shown["fullPassEveryHours"]!, (string?)shown["mapping"]!["rows"]![1]!["decimalMark"]));
        Assert.Equal((0L, false), ((long)shown["state"]!["assetsListed"]!, (bool)shown["isFromConfiguration"]!));
        Assert.Null(shown["state"]!["lastRun"]);
        Assert.NotNull(shown["state"]!["nextRunDue"]);
        Assert.DoesNotContain(RegisterApiHost.Secret, text, StringComparison.Ordinal);

        // What is shown can be put as it is, without what the service adds, and changes nothing.
        using var same = await host.Client.PutItemAsync($"{Root}/life", Settings(shown), ifMatch: read.Headers.ETag!.ToString());
        Assert.Equal((HttpStatusCode.OK, read.Headers.ETag), (same.StatusCode, same.Headers.ETag));

        // A run moves the state's part of the ETag, not the condition of who changes settings.
        using var run = await host.Client.SendJsonAsync("/v1/register-syncs", """{"source":"life"}""");
        using var moved = await host.Client.GetItemAsync($"{Root}/life", read.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.OK, moved.StatusCode);
        Assert.Equal("waiting", (string?)(await moved.JsonAsync())["state"]!["lastRun"]!["state"]);
        using var unchanged = await host.Client.GetItemAsync($"{Root}/life", moved.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NotModified, unchanged.StatusCode);

        using var replaced = await host.Client.PutItemAsync($"{Root}/life", Http.Replace("60", "90", StringComparison.Ordinal), ifMatch: read.Headers.ETag!.ToString());
        Assert.Equal((HttpStatusCode.OK, 90), (replaced.StatusCode, (int)(await replaced.JsonAsync())["everyMinutes"]!));
        using var late = await host.Client.PutItemAsync($"{Root}/life", Http, ifMatch: read.Headers.ETag!.ToString());
        await HostileRequestTests.Problem(late, HttpStatusCode.PreconditionFailed, "precondition-failed");
        var changes = await host.Client.ListAsync("/v1/changes?kind=register-source&key=life");
        Assert.Equal(["changed", "created"], changes.Select(c => (string?)c["action"]));

        using var deleted = await host.Client.DeleteItemAsync($"{Root}/life", replaced.Headers.ETag!.ToString());
        using var gone = await host.Client.GetItemAsync($"{Root}/life");
        Assert.Equal((HttpStatusCode.NoContent, HttpStatusCode.NotFound), (deleted.StatusCode, gone.StatusCode));
        using var cancelled = await host.Client.GetAsync(run.Headers.Location);
        var over = await cancelled.JsonAsync();
        Assert.Equal(("cancelled", "source-deleted"), ((string?)over["state"], (string?)over["reasonCode"]));
    }

    [Fact]
    public async Task Put_EverythingWrong_ListsAllPlacesAtOnceWithValueAndAccepted()
    {
        using var put = await host.Client.PutItemAsync($"{Root}/wrong", """
            {"http":{"address":"ftp://register.example/","rowsPointer":"items","paging":"page-number","lastPage":"short","useETag":true,"changedSinceParameter":"a","credentialName":"wroks"},
             "mapping":{"rows":[{"target":"/surface/materiel","source":"a"},{"target":"/surface/thicknessMm","source":"b","unit":"furlong"},
               {"target":"/contents"},{"target":"/environment/temperatureMinC","source":"c","default":"warm"},{"target":"/category","source":"d\u0000"}]}}
            """);

        var problem = await HostileRequestTests.Problem(put, HttpStatusCode.BadRequest, "invalid-fields");

        Assert.Equal(
            [
                "#/http/address", "#/http/credentialName", "#/http/pageParameter", "#/http/pageSize", "#/http/rowsPointer", "#/http/useETag", "#/http/useETag", "#/mapping/rows",
                "#/mapping/rows/0/target", "#/mapping/rows/1/unit", "#/mapping/rows/2/source", "#/mapping/rows/3/default", "#/mapping/rows/4/source",
            ],
            problem.Errors!.Select(e => e.Pointer).Order(StringComparer.Ordinal));
        Assert.Equal(("ftp://register.example/", "items"), (Value("#/http/address"), Value("#/http/rowsPointer")));
        Assert.Equal("depot, works", problem.Errors!.Single(e => e.Pointer == "#/http/credentialName").Accepted);
        Assert.Contains("/surface/material", problem.Errors!.Single(e => e.Pointer == "#/mapping/rows/0/target").Accepted, StringComparison.Ordinal);
        Assert.Contains("mm", problem.Errors!.Single(e => e.Pointer == "#/mapping/rows/1/unit").Accepted, StringComparison.Ordinal);
        Assert.All(problem.Errors!, e => Assert.NotEmpty(e.Accepted ?? ""));

        string? Value(string pointer) => problem.Errors!.Single(e => e.Pointer == pointer).Value;
    }

    [Theory]
    [InlineData("""{"csv":{"folder":"outbox","pattern":"../*.csv","separator":"#","encoding":"ebcdic"},"mapping":MAPPING}""", "#/csv/encoding #/csv/folder #/csv/pattern #/csv/separator")]
    [InlineData("""{"mapping":MAPPING}""", "#")]
    [InlineData("""{"csv":{"folder":"inbox","pattern":"*.csv"},"http":{"address":"https://register.example/"},"mapping":MAPPING}""", "#/csv #/http")]
    [InlineData("""{"http":{"address":"https://elsewhere.example/","credentialName":"works"},"mapping":MAPPING}""", "#/http/address")]
    [InlineData("""{"http":{"address":"https://register.example/","mostPages":0},"mapping":MAPPING}""", "#/http/mostPages")]
    [InlineData("""{"http":{"address":"https://register.example/"},"mapping":MAPPING,"mostMissingShare":1.5}""", "#/mostMissingShare")]
    [InlineData("""{"http":{"address":"https://register.example/","secret":"x"},"mapping":MAPPING}""", "#/http/secret")]
    [InlineData("""{"spreadsheet":{"folder":"inbox","pattern":"*.xlsx"},"mapping":{"rows":[]}}""", "#/mapping/rows")]
    public async Task Put_FaultySource_NamesThePlaces(string body, string pointers)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/faulty", body.Replace("MAPPING", """{"rows":[{"target":"/assetId","source":"id"}]}""", StringComparison.Ordinal));

        var problem = await HostileRequestTests.Problem(put, HttpStatusCode.BadRequest, "invalid-fields");

        Assert.Equal(pointers, string.Join(' ', problem.Errors!.Select(e => e.Pointer).Order(StringComparer.Ordinal)));
        if (pointers.Contains("folder", StringComparison.Ordinal))
            Assert.Equal("inbox", problem.Errors!.Single(e => e.Pointer == "#/csv/folder").Accepted);
    }

    [Theory]
    [InlineData("push")]
    [InlineData("demo")]
    public async Task Put_NameThatSaysNoRegister_IsRefused(string name)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/{name}", Http);
        await HostileRequestTests.Problem(put, HttpStatusCode.BadRequest, "invalid-request");
    }

    [Fact]
    public async Task List_Sources_GivesThemInOrderPageByPage()
    {
        await host.Client.GivenAsync([.. Enumerable.Range(0, 3).Select(i => ($"{Root}/list-{i}", Http))]);
        var names = (await host.Client.ListAsync($"{Root}?limit=1&after=list")).Select(s => (string?)s["name"]).Where(n => n!.StartsWith("list", StringComparison.Ordinal));
        Assert.Equal(["list-0", "list-1", "list-2"], names);
    }

    internal static string Settings(JsonNode shown)
    {
        var copy = (JsonObject)shown.DeepClone();
        foreach (var added in new[] { "isFromConfiguration", "updatedAt", "state" })
            copy.Remove(added);
        return copy.ToJsonString();
    }
}
