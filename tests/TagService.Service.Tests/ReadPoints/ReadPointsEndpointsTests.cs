using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.ReadPoints;

/// <summary>Read points as HTTP. All places and readers are invented; the identities are examples of the GS1 EPC Tag Data Standard.</summary>
[Collection(TestDatabase.Collection)]
public sealed class ReadPointsEndpointsTests(RealHost host) : IClassFixture<RealHost>, IAsyncLifetime
{
    private const string Root = "/v1/read-points";

    public Task InitializeAsync() => host.Client.GivenAsync(
        ("/v1/locations/site", """{"name":"Site"}"""), ("/v1/locations/store", """{"name":"Store","parentId":"site"}"""), ("/v1/locations/yard", """{"name":"Yard"}"""));

    public Task DisposeAsync() => Task.CompletedTask;

    [Fact]
    public async Task Put_NewReadPoint_IsCreatedShownReplacedAndDeleted()
    {
        using var created = await host.Client.PutItemAsync(
            $"{Root}/life",
            """
            {"name":"Ceiling 2","kind":"area","locationId":"store","readerName":"rdr-1","antenna":2,"aliases":["ceiling two"],"eirpDbm":33,"readerKind":"fixed",
             "heartbeatSeconds":300,"referenceTags":["urn:epc:id:giai:9521141.5678"],"sweepHours":12,"note":"above the door"}
            """,
            ifNoneMatch: "*");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        using var read = await host.Client.GetItemAsync(created.Headers.Location!.OriginalString);
        var shown = await read.JsonAsync();
        Assert.Equal(created.Headers.ETag, read.Headers.ETag);
        Assert.True(JsonNode.DeepEquals(shown, await created.JsonAsync()));
        Assert.Equal(("area", "rdr-1", 2, 33.0, "fixed", 300, 12.0), ((string?)shown["kind"], (string?)shown["readerName"], (int)shown["antenna"]!, (double)shown["eirpDbm"]!, (string?)shown["readerKind"], (int)shown["heartbeatSeconds"]!, (double)shown["sweepHours"]!));
        using var known = await host.Client.GetItemAsync($"{Root}/life", ifNoneMatch: read.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NotModified, known.StatusCode);

        using var replaced = await host.Client.PutItemAsync($"{Root}/life", """{"name":"Gate","kind":"passage","locationId":"yard"}""", ifMatch: created.Headers.ETag!.ToString());
        var now = await replaced.JsonAsync();
        Assert.Equal((HttpStatusCode.OK, "passage", "yard", null, null), (replaced.StatusCode, (string?)now["kind"], (string?)now["locationId"], now["sweepHours"], now["antenna"]));
        using var late = await host.Client.DeleteItemAsync($"{Root}/life", created.Headers.ETag.ToString());
        await HostileRequestTests.Problem(late, HttpStatusCode.PreconditionFailed, "precondition-failed");
        using var deleted = await host.Client.DeleteItemAsync($"{Root}/life");
        using var gone = await host.Client.DeleteItemAsync($"{Root}/life");
        Assert.Equal((HttpStatusCode.NoContent, HttpStatusCode.NotFound), (deleted.StatusCode, gone.StatusCode));
    }

    [Theory]
    [InlineData("area", 24.0)]
    [InlineData("cabinet", 24.0)]
    [InlineData("walked", null)]
    [InlineData("passage", null)]
    public async Task Put_WithoutSweepHours_InfersDailySweepsOnlyWhereAPlaceIsWatched(string kind, double? hours)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/sweeps-{kind}", $$"""{"name":"x","kind":"{{kind}}","locationId":"store"}""");
        Assert.Equal(hours, (double?)(await put.JsonAsync())["sweepHours"]);
        using var stated = await host.Client.PutItemAsync($"{Root}/sweeps-{kind}", $$"""{"name":"x","kind":"{{kind}}","locationId":"store","sweepHours":6}""");
        if (hours is null)
            Assert.Contains((await HostileRequestTests.Problem(stated, HttpStatusCode.UnprocessableEntity, "contradictory-fields")).Errors!, e => e.Pointer == "#/sweepHours");
        else
            Assert.Equal(6.0, (double)(await stated.JsonAsync())["sweepHours"]!);
    }

    [Theory]
    [InlineData("\"locationId\":\"nowhere\"", 400, "#/locationId")]
    [InlineData("\"locationId\":\"store\",\"kind\":\"gate\"", 400, "#/kind")]
    [InlineData("\"locationId\":\"store\",\"antenna\":1", 422, "#/antenna")]
    [InlineData("\"locationId\":\"store\",\"readerName\":\"r\",\"antenna\":0", 400, "#/antenna")]
    [InlineData("\"locationId\":\"store\",\"eirpDbm\":61", 400, "#/eirpDbm")]
    [InlineData("\"locationId\":\"store\",\"heartbeatSeconds\":0", 400, "#/heartbeatSeconds")]
    [InlineData("\"locationId\":\"store\",\"sweepHours\":745", 400, "#/sweepHours")]
    [InlineData("\"locationId\":\"store\",\"referenceTags\":[\"urn:epc:id:giai:9521141.5678\",\"no tag\"]", 400, "#/referenceTags/1")]
    [InlineData("\"locationId\":\"store\",\"referenceTags\":[\"\"]", 400, "#/referenceTags/0")]
    public async Task Put_FaultyReadPoint_IsRefusedNamingThePlace(string members, int status, string pointer)
    {
        var kind = members.Contains("kind", StringComparison.Ordinal) ? "" : "\"kind\":\"area\",";
        using var put = await host.Client.PutItemAsync($"{Root}/faulty", $$"""{"name":"x",{{kind}}{{members}}}""");
        var problem = await HostileRequestTests.Problem(put, (HttpStatusCode)status, status == 400 ? "invalid-fields" : "contradictory-fields");
        Assert.Contains(problem.Errors!, e => e.Pointer == pointer);
    }

    // GS1 EPC Tag Data Standard 2.3, annex E.3: all of these are GIAI 9521141 5678.
    [Theory]
    [InlineData("3476451FD40000000000162E")]
    [InlineData("(8004)95211415678")]
    [InlineData("https://id.gs1.org/8004/95211415678")]
    public async Task Put_SameReferenceTagInTwoForms_IsRefused(string other)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/tags", $$"""{"name":"x","kind":"area","locationId":"store","referenceTags":["urn:epc:id:giai:9521141.5678","{{other}}"]}""");
        var problem = await HostileRequestTests.Problem(put, HttpStatusCode.UnprocessableEntity, "contradictory-fields");
        Assert.Contains(problem.Errors!, e => e.Pointer == "#/referenceTags/1");
        using var alone = await host.Client.PutItemAsync($"{Root}/tags", $$"""{"name":"x","kind":"area","locationId":"store","referenceTags":["{{other}}"]}""");
        Assert.Equal(other, (string?)(await alone.JsonAsync())["referenceTags"]![0]);
    }

    [Fact]
    public async Task Put_ReaderAndAntennaOfAnother_IsRefused()
    {
        await host.Client.GivenAsync(
            ($"{Root}/pair-1", Body("rdr-7", 1)), ($"{Root}/pair-2", Body("rdr-7", 2)), ($"{Root}/pair-all", Body("rdr-7", null)), ($"{Root}/pair-case", Body("RDR-7", 1)),
            ($"{Root}/pair-none", Body(null, null)), ($"{Root}/pair-none-2", Body(null, null)), ($"{Root}/pair-1", Body("rdr-7", 1)));
        foreach (var (antenna, owner) in new (int?, string)[] { (1, "pair-1"), (null, "pair-all") })
        {
            using var taken = await host.Client.PutItemAsync($"{Root}/pair-new", Body("rdr-7", antenna));
            Assert.Contains(owner, (await HostileRequestTests.Problem(taken, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
        }

        // Two at once: the other sees who was quicker.
        var answers = await Task.WhenAll(Enumerable.Range(0, 4).Select(i => host.Client.PutItemAsync($"{Root}/pair-race-{i}", Body("rdr-8", 1))));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Created);
        Assert.Equal(3, answers.Count(a => a.StatusCode == HttpStatusCode.Conflict));
    }

    [Fact]
    public async Task Put_AliasOfAnother_IsRefused()
    {
        await host.Client.GivenAsync(
            ($"{Root}/alias-1", """{"name":"Gate","kind":"passage","locationId":"yard","aliases":["urn:epc:id:sgln:9521141.12345.1"]}"""),
            // A location may have the alias of a read point: they are asked for apart.
            ("/v1/locations/yard", """{"name":"Yard","aliases":["urn:epc:id:sgln:9521141.12345.1"]}"""));
        using var taken = await host.Client.PutItemAsync($"{Root}/alias-2", """{"name":"Gate","kind":"passage","locationId":"yard","aliases":["URN:epc:id:sgln:9521141.12345.1"]}""");
        Assert.Contains("alias-1", (await HostileRequestTests.Problem(taken, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
        Assert.Equal(["alias-1"], await host.Client.IdsAsync($"{Root}?name=urn:epc:id:sgln:9521141.12345.1"));
    }

    [Fact]
    public async Task List_Subtree_GivesReadPointsOfAllPlacesWithin()
    {
        await host.Client.GivenAsync(
            ("/v1/locations/sub", """{"name":"Sub"}"""), ("/v1/locations/sub-a", """{"name":"A","parentId":"sub"}"""), ("/v1/locations/sub-b", """{"name":"B","parentId":"sub-a"}"""),
            ($"{Root}/sub-1", """{"name":"x","kind":"area","locationId":"sub"}"""), ($"{Root}/sub-2", """{"name":"y","kind":"area","locationId":"sub-b"}"""),
            ($"{Root}/sub-3", """{"name":"X","kind":"area","locationId":"sub-a"}"""));
        Assert.Equal(["sub-1", "sub-2", "sub-3"], await host.Client.IdsAsync($"{Root}?under=sub&limit=1"));
        Assert.Equal(["sub-2"], await host.Client.IdsAsync($"{Root}?under=sub-b"));
        Assert.Equal(["sub-1", "sub-3"], await host.Client.IdsAsync($"{Root}?under=sub&name=x"));
        using var nowhere = await host.Client.GetAsync($"{Root}?under=nowhere");
        await HostileRequestTests.Problem(nowhere, HttpStatusCode.NotFound, "not-found");
    }

    // What a passage does not see means nothing; a client reads that where it chooses the kind.
    [Fact]
    public async Task Document_OfReadPoints_SaysThatPassagesAreNoEvidenceOfAbsence()
    {
        var document = JsonNode.Parse(await host.Client.GetStringAsync("/openapi/v1.json"))!;
        string?[] texts =
        [
            (string?)document["paths"]![Root]!["get"]!["description"], (string?)document["paths"]![$"{Root}/{{id}}"]!["put"]!["description"],
            (string?)document["components"]!["schemas"]!["ReadPointKind"]!["description"],
        ];
        Assert.All(texts, t => Assert.Contains("never", t, StringComparison.Ordinal));
        Assert.All(texts, t => Assert.Contains("absence", t, StringComparison.Ordinal));
    }

    private static string Body(string? reader, int? antenna) =>
        $$"""{"name":"x","kind":"area","locationId":"store","readerName":{{(reader is null ? "null" : $"\"{reader}\"")}},"antenna":{{antenna?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "null"}}}""";
}
