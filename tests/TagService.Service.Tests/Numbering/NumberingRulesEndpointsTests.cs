using System.Net;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using TagService.Storage.Numbering;

namespace TagService.Service.Tests.Numbering;

/// <summary>Numbering rules as HTTP. Each test has a company prefix of its own (invented), as rules of one prefix watch each other.</summary>
[Collection(TestDatabase.Collection)]
public sealed class NumberingRulesEndpointsTests(NumberingHost host) : IClassFixture<NumberingHost>
{
    private const string Root = "/v1/numbering-rules";

    [Fact]
    public async Task Put_NewRule_IsCreatedShownReplacedAndDeletedWhileUnused()
    {
        using var created = await host.Client.PutItemAsync($"{Root}/life", """{"scheme":"giai-96","companyPrefix":"9521141","nextNumber":5678,"note":"x"}""", ifNoneMatch: "*");
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        var shown = await created.JsonAsync();
        // GS1 EPC Tag Data Standard 2.3, annex E.3 (read): the element string of this GIAI is (8004)95211415678.
        Assert.Equal(("8004:95211415678", 9_007_199_254_740_991, null), ((string?)shown["nextIdentity"], (long)shown["lastNumber"]!, shown["handedOutThrough"]));
        using var read = await host.Client.GetItemAsync($"{Root}/life");
        Assert.Equal(created.Headers.ETag, read.Headers.ETag);
        Assert.True(JsonNode.DeepEquals(shown, await read.JsonAsync()));

        // Nothing was handed out: everything may change, even backwards.
        using var replaced = await host.Client.PutItemAsync($"{Root}/life", """{"scheme":"grai-170","companyPrefix":"9521141","assetType":"12345","leading":"T","digits":6,"nextNumber":1}""", ifMatch: created.Headers.ETag!.ToString());
        var now = await replaced.JsonAsync();
        Assert.Equal(("8003:09521141123454T000001", 999_999L, "12345"), ((string?)now["nextIdentity"], (long)now["lastNumber"]!, (string?)now["assetType"]));
        using var deleted = await host.Client.DeleteItemAsync($"{Root}/life", replaced.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        using var gone = await host.Client.GetItemAsync($"{Root}/life");
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
    }

    [Fact]
    public async Task Put_AfterNumbersWereHandedOut_CannotMakeThemComeAgain()
    {
        const string item = $"{Root}/used";
        await host.Client.GivenAsync((item, """{"scheme":"giai-96","companyPrefix":"9521142","nextNumber":10,"lastNumber":100}"""));
        using var before = await host.Client.GetItemAsync(item);
        Assert.Equal([10, 11, 12], Assert.IsType<NumberOutcome.Taken>(await host.Storage.TakeAsync("used", 3)).Numbers);

        using var lower = await host.Client.PutItemAsync(item, """{"scheme":"giai-96","companyPrefix":"9521142","nextNumber":12}""");
        var problem = await HostileRequestTests.Problem(lower, HttpStatusCode.Conflict, "conflict");
        Assert.Contains("through 12 were handed out", problem.Detail, StringComparison.Ordinal);
        Assert.Contains("13 or more", Assert.Single(problem.Errors!).Accepted, StringComparison.Ordinal);
        foreach (var other in new[]
        {
            """{"scheme":"giai-96","companyPrefix":"9521142","lastNumber":11}""", """{"scheme":"giai-96","companyPrefix":"9521143"}""", """{"scheme":"giai-202","companyPrefix":"9521142","leading":"1"}""",
            """{"scheme":"giai-202","companyPrefix":"9521142","digits":9}""", """{"scheme":"grai-96","companyPrefix":"9521142","assetType":"00000"}""",
        })
        {
            using var put = await host.Client.PutItemAsync(item, other);
            await HostileRequestTests.Problem(put, HttpStatusCode.Conflict, "conflict");
        }

        using var deleted = await host.Client.DeleteItemAsync(item);
        Assert.Contains("lastNumber to 12", (await HostileRequestTests.Problem(deleted, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
        using var stale = await host.Client.PutItemAsync(item, """{"scheme":"giai-96","companyPrefix":"9521142"}""", ifMatch: before.Headers.ETag!.ToString());
        await HostileRequestTests.Problem(stale, HttpStatusCode.PreconditionFailed, "precondition-failed");

        // Filter, another scheme of the same key, a note: none of them is identity. What is left out goes on.
        using var fine = await host.Client.PutItemAsync(item, """{"scheme":"giai+","companyPrefix":"9521142","filter":1,"note":"from May","lastNumber":12}""");
        var stopped = await fine.JsonAsync();
        Assert.Equal((13L, 0L, 12L, null), ((long)stopped["nextNumber"]!, (long)stopped["numbersLeft"]!, (long)stopped["handedOutThrough"]!, stopped["nextIdentity"]));
        Assert.IsType<NumberOutcome.Exhausted>(await host.Storage.TakeAsync("used"));
        await host.Client.GivenAsync((item, """{"scheme":"giai+","companyPrefix":"9521142","nextNumber":500}"""), (item, """{"scheme":"giai+","companyPrefix":"9521142","nextNumber":13}"""));
        Assert.Equal(13, await host.Storage.TakeOneAsync("used"));
    }

    [Fact]
    public async Task Put_RuleAtItsVeryEnd_CanStillBeSentBack()
    {
        const string item = $"{Root}/end";
        await host.Client.GivenAsync((item, """{"scheme":"giai+","companyPrefix":"9521144","nextNumber":9007199254740990}"""));
        await host.Storage.TakeAsync("end", 2);
        Assert.IsType<NumberOutcome.Exhausted>(await host.Storage.TakeAsync("end"));
        using var read = await host.Client.GetItemAsync(item);
        var shown = await read.JsonAsync();
        Assert.Equal((9_007_199_254_740_992, 0L), ((long)shown["nextNumber"]!, (long)shown["numbersLeft"]!));
        using var put = await host.Client.PutItemAsync(item, """{"scheme":"giai+","companyPrefix":"9521144","note":"full"}""");
        Assert.Equal(HttpStatusCode.OK, put.StatusCode);
    }

    [Fact]
    public async Task Put_RangeThatMeetsAnothers_IsRefusedNamingBoth()
    {
        await host.Client.GivenAsync(($"{Root}/meet-1", """{"scheme":"giai-96","companyPrefix":"9521145","nextNumber":100,"lastNumber":199}"""));
        foreach (var body in new[]
        {
            """{"scheme":"giai-96","companyPrefix":"9521145","nextNumber":150,"lastNumber":160}""", """{"scheme":"giai+","companyPrefix":"9521145","leading":"1","digits":2,"nextNumber":0}""",
            // 952114 and 5 are what 9521145 begins with.
            """{"scheme":"giai-202","companyPrefix":"952114","leading":"5","digits":3,"nextNumber":142}""",
        })
        {
            using var put = await host.Client.PutItemAsync($"{Root}/meet-2", body);
            Assert.Contains("meet-1", (await HostileRequestTests.Problem(put, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
        }

        await host.Client.GivenAsync(
            ($"{Root}/meet-2", """{"scheme":"giai-96","companyPrefix":"9521145","nextNumber":200,"lastNumber":299}"""), ($"{Root}/meet-3", """{"scheme":"giai+","companyPrefix":"9521145","leading":"A"}"""),
            ($"{Root}/meet-4", """{"scheme":"grai-96","companyPrefix":"9521145","assetType":"00001"}"""), ($"{Root}/meet-5", """{"scheme":"grai-96","companyPrefix":"9521145","assetType":"00002"}"""));
    }

    [Fact]
    public async Task Put_Default_TakesThatFromTheOtherAndThereIsOneAtMost()
    {
        await host.Client.GivenAsync(
            [.. Enumerable.Range(0, 8).Select(i => ($"{Root}/default-{i}", $$"""{"scheme":"giai-96","companyPrefix":"9521146","nextNumber":{{i + 1}}000,"lastNumber":{{i + 1}}999}"""))]);
        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => host.Client.PutItemAsync(
            $"{Root}/default-{i}", $$"""{"scheme":"giai-96","companyPrefix":"9521146","lastNumber":{{i + 1}}999,"isDefault":true}""")));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.OK, a.StatusCode));
        var rule = Assert.Single(await host.Client.ListAsync(Root), r => (bool)r["isDefault"]!);
        Assert.Equal((string?)rule["id"], Assert.IsType<NumberOutcome.Taken>(await host.Storage.TakeAsync(null)).RuleId);
        // Whoever lost it has that in its own story.
        var lost = (await host.Client.ListAsync("/v1/changes?kind=numbering-rule")).Count(c => c["before"] is { } before && (bool)before["isDefault"]! && !(bool)c["after"]!["isDefault"]!);
        Assert.Equal(7, lost);
    }

    // Rules are changed while numbers are taken: no number comes twice, no change is refused for it.
    [Fact]
    public async Task Put_WhileNumbersAreTaken_LosesNone()
    {
        const string item = $"{Root}/busy";
        await host.Client.GivenAsync((item, """{"scheme":"giai-96","companyPrefix":"9521147"}"""));
        var taking = Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(async () =>
        {
            var numbers = new List<long>();
            for (var i = 0; i < 60; i++)
                numbers.Add(await host.Storage.TakeOneAsync("busy"));
            return numbers;
        })));
        for (var i = 0; !taking.IsCompleted || i < 5; i++)
            await host.Client.GivenAsync((item, $$"""{"scheme":"giai-96","companyPrefix":"9521147","note":"change {{i}}"}"""));
        Assert.Equal(Enumerable.Range(1, 240).Select(i => (long)i), (await taking).SelectMany(n => n).Order());
    }

    [Theory]
    [InlineData("""{"scheme":"sscc-96","companyPrefix":"9521148"}""", 400, "#/scheme")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"95211"}""", 400, "#/companyPrefix")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","filter":8}""", 400, "#/filter")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","nextNumber":9007199254740992}""", 400, "#/nextNumber")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","leading":"a/b"}""", 400, "#/leading")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","digits":17}""", 400, "#/digits")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","leading":"A"}""", 422, "#/leading")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","digits":6}""", 422, "#/digits")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","assetType":"00001"}""", 422, "#/assetType")]
    [InlineData("""{"scheme":"giai-96","companyPrefix":"9521148","itemReference":"000001"}""", 422, "#/itemReference")]
    [InlineData("""{"scheme":"grai-96","companyPrefix":"9521148"}""", 422, "#/assetType")]
    [InlineData("""{"scheme":"grai-96","companyPrefix":"9521148","assetType":"1"}""", 422, "#/assetType")]
    [InlineData("""{"scheme":"sgtin-96","companyPrefix":"9521148"}""", 422, "#/itemReference")]
    [InlineData("""{"scheme":"grai-96","companyPrefix":"9521148","assetType":"00001","nextNumber":274877906944}""", 422, "#/nextNumber")]
    [InlineData("""{"scheme":"grai-96","companyPrefix":"9521148","assetType":"00001","lastNumber":274877906944}""", 422, "#/lastNumber")]
    [InlineData("""{"scheme":"giai+","companyPrefix":"9521148","digits":3,"lastNumber":1000}""", 422, "#/lastNumber")]
    [InlineData("""{"scheme":"giai+","companyPrefix":"9521148","nextNumber":5,"lastNumber":4}""", 422, "#/lastNumber")]
    [InlineData("""{"id":"x","scheme":"giai+","companyPrefix":"9521148"}""", 422, "#/id")]
    public async Task Put_FaultyRule_IsRefusedNamingThePlace(string body, int status, string pointer)
    {
        using var put = await host.Client.PutItemAsync($"{Root}/faulty", body);
        var problem = await HostileRequestTests.Problem(put, (HttpStatusCode)status, status == 400 ? "invalid-fields" : "contradictory-fields");
        Assert.Contains(problem.Errors!, e => e.Pointer == pointer);
    }

    // Last line of defence: a writer that knows nothing of the rules.
    [Theory]
    [InlineData("UPDATE numbering_rules SET next_number = 1 WHERE id = 'guarded'", "23514")]
    [InlineData("UPDATE numbering_rules SET last_number = 1 WHERE id = 'guarded'", "23514")]
    [InlineData("UPDATE numbering_rules SET company_prefix = 'x' WHERE id = 'guarded'", "23514")]
    public async Task Database_WriterThatBreaksARule_IsRefused(string sql, string sqlState)
    {
        await host.Client.GivenAsync(($"{Root}/guarded", """{"scheme":"giai-96","companyPrefix":"9521149"}"""));
        await host.Storage.TakeAsync("guarded", 5);
        var refused = await Assert.ThrowsAsync<Npgsql.PostgresException>(() => host.Storage.ScalarAsync(sql));
        Assert.Equal(sqlState, refused.SqlState);
    }
}
