using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using static TagService.Service.Tests.Attachments.AttachmentClient;

namespace TagService.Service.Tests.Attachments;

[Collection(TestDatabase.Collection)]
public sealed class AttachmentsEndpointsTests(RealHost host) : IClassFixture<RealHost>
{
    private HttpClient Client => host.Client;

    [Fact]
    public async Task Start_WholeResultOfAFitter_IsReadBackAsRecorded()
    {
        var (asset, tag) = (await Client.NewAssetAsync(), NewTag());
        await Client.GivenAsync(("/v1/tag-batches/B-1", """{"tagClassId":"hard-metal-mount-large"}"""));
        var answer = await Client.StartedAsync(asset, $$"""
            {"identity":"{{tag.ToLowerInvariant()}}","tidHex":"e2801160200073c5a1b20a3d","tagClassId":"hard-metal-mount-large","attachmentMethod":"screws",
             "startAt":"{{Day(5)}}","labourMinutes":7.5,"tagBatchId":"B-1","fitterId":"f-17","answeredAtM":4,"silentAtM":9,"checkEirpDbm":30,"checkRegion":"EU",
             "checkReaderKind":"handheld","checkSite":"plant","photoReference":"photos/17.jpg","note":"left of the plate (invented)"}
            """);
        var shown = answer["attachment"]!;
        Assert.Equal((asset, tag, "E2801160200073C5A1B20A3D", "hard-metal-mount-large", "screws"),
            ((string?)shown["assetId"], (string?)shown["epcHex"], (string?)shown["tidHex"], (string?)shown["tagClassId"], (string?)shown["attachmentMethod"]));
        Assert.Equal((7.5, "B-1", 4.0, 9.0, 30.0, "eu", "handheld", "plant", "photos/17.jpg"),
            ((double)shown["labourMinutes"]!, (string?)shown["tagBatchId"], (double)shown["answeredAtM"]!, (double)shown["silentAtM"]!, (double)shown["checkEirpDbm"]!,
             (string?)shown["checkRegion"], (string?)shown["checkReaderKind"], (string?)shown["checkSite"], (string?)shown["photoReference"]));
        Assert.Equal(DateTimeOffset.Parse(Day(5), null), (DateTimeOffset)shown["startAt"]!);
        Assert.Null(answer["previous"]);

        // An opaque person is shown only to those who ask for it.
        Assert.Null(shown["fitterId"]);
        Assert.Equal("f-17", (string?)(await Client.GetFromJsonAsync<JsonNode>($"/v1/attachments/{answer.Id()}?include=fitter"))!["fitterId"]);
        Assert.True(JsonNode.DeepEquals(shown, await Client.GetFromJsonAsync<JsonNode>($"/v1/attachments/{answer.Id()}")));
        Assert.True(JsonNode.DeepEquals(shown, (await Client.OfTagAsync(tag)).Single()));
        Assert.True(JsonNode.DeepEquals(shown, (await Client.OfAssetAsync(asset))[^1]));
        Assert.DoesNotContain("f-17", (await Client.OfAssetAsync(asset)).ToJsonString(), StringComparison.Ordinal);
        Assert.Contains("f-17", (await Client.OfAssetAsync(asset, "?include=fitter")).ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_TagThatIsElsewhere_Is409NamingItAndEndPreviousIsTheWayOut()
    {
        var (first, second, tag) = (await Client.NewAssetAsync(), await Client.NewAssetAsync(), NewTag());
        var before = await Client.StartedAsync(first, $$"""{"identity":"{{tag}}","startAt":"{{Day(1)}}"}""");
        using var refused = await Client.StartAsync(second, $$"""{"identity":"{{tag}}","startAt":"{{Day(3)}}"}""");
        var problem = await HostileRequestTests.Problem(refused, HttpStatusCode.Conflict, "conflict");
        Assert.Contains(before.Id(), problem.Detail, StringComparison.Ordinal);
        Assert.Contains(first, problem.Detail, StringComparison.Ordinal);
        Assert.Contains("endPrevious", problem.Errors!.Single().Accepted, StringComparison.Ordinal);

        var moved = await Client.StartedAsync(second, $$"""{"identity":"{{tag}}","startAt":"{{Day(3)}}","endPrevious":{"reason":"moved-to-another-asset","at":"{{Day(2)}}"} }""");
        Assert.Equal((before.Id(), "moved-to-another-asset", "removal"), ((string?)moved["previous"]!["id"], (string?)moved["previous"]!["endReason"], (string?)moved["previous"]!["endKind"]));
        Assert.Equal(DateTimeOffset.Parse(Day(2), null), (DateTimeOffset)moved["previous"]!["endAt"]!);
    }

    [Fact]
    public async Task Start_SamePairOnceMore_Is409SayingThatItIsThereAlready()
    {
        var (asset, tag) = (await Client.NewAssetAsync(), NewTag());
        var before = await Client.StartedAsync(asset, $$"""{"identity":"{{tag}}"}""");
        using var again = await Client.StartAsync(asset, $$"""{"identity":"{{tag}}"}""");
        var error = Assert.Single((await HostileRequestTests.Problem(again, HttpStatusCode.Conflict, "conflict")).Errors!);
        Assert.Equal("#/identity", error.Pointer);
        Assert.Contains($"on {asset} already", error.Detail, StringComparison.Ordinal);
        Assert.Contains(before.Id(), error.Accepted, StringComparison.Ordinal);
    }

    /// <summary>One key in other forms (GS1 TDS 2.3, GIAI; GS1 Digital Link, AI 8004): the filter value and the form are no part of the identity.</summary>
    [Fact]
    public async Task Start_OneIdentityInOtherForms_IsOneTag()
    {
        var reference = Random.Shared.NextInt64(1L << 40, 1L << 41);
        var hex = Tag(reference);
        var started = await Client.StartedAsync(await Client.NewAssetAsync(), $$"""{"identity":"{{hex}}"}""");
        Assert.Equal($"8004:9521141{reference}", (string?)started["attachment"]!["identity"]);
        var asset = await Client.NewAssetAsync();
        // Second byte: filter value in three bits, partition 5, prefix; 16 instead of 76 is filter value 0 instead of 3.
        foreach (var form in new[] { $"urn:epc:id:giai:9521141.{reference}", $"(8004)9521141{reference}", $"https://example.com/8004/9521141{reference}", $"8004:9521141{reference}", $"3416{hex[4..]}", hex.ToLowerInvariant() })
        {
            using var refused = await Client.StartAsync(asset, $$"""{"identity":"{{form}}"}""");
            Assert.Contains(started.Id(), (await HostileRequestTests.Problem(refused, HttpStatusCode.Conflict, "conflict")).Detail, StringComparison.Ordinal);
            Assert.Equal(started.Id(), (string?)(await Client.OfTagAsync(form)).Single()!["id"]);
        }
    }

    [Fact]
    public async Task Start_NewTagOnAnAsset_EndsTheOldOneWithNoDateNobodyEntered()
    {
        var asset = await Client.NewAssetAsync();
        var old = await Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}"}""");
        var answer = await Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}","startAt":"{{Day(9)}}","endPrevious":{"reason":"damaged"} }""");
        var previous = answer["previous"]!;
        Assert.Equal((old.Id(), "damaged"), ((string?)previous["id"], (string?)previous["endReason"]));
        // Previous means: not after the new one began. More is not known.
        Assert.Equal(DateTimeOffset.Parse(Day(9), null), (DateTimeOffset)previous["endNotAfter"]!);
        Assert.Null(previous["endAt"] ?? previous["endNotBefore"] ?? previous["startAt"] ?? previous["startNotAfter"]);
    }

    [Fact]
    public async Task Start_SeveralTagsOnAnAsset_IsFineAndEndPreviousMustNameOne()
    {
        var asset = await Client.NewAssetAsync();
        var one = await Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}"}""");
        var two = await Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}"}""");
        var request = $$"""{"identity":"{{NewTag()}}","endPrevious":{"reason":"damaged"} }""";
        using var refused = await Client.StartAsync(asset, request);
        var problem = await HostileRequestTests.Problem(refused, HttpStatusCode.Conflict, "conflict");
        Assert.Equal("#/endPrevious/attachmentId", problem.Errors!.Single().Pointer);
        Assert.All([one.Id(), two.Id()], id => Assert.Contains(id, problem.Errors!.Single().Accepted, StringComparison.Ordinal));
        var answer = await Client.StartedAsync(asset, request.Replace("\"damaged\"", $"\"damaged\",\"attachmentId\":\"{two.Id()}\"", StringComparison.Ordinal));
        Assert.Equal(two.Id(), (string?)answer["previous"]!["id"]);
    }

    /// <summary>Preconditions: RFC 9110, section 13.1.1; merge patch: RFC 7396.</summary>
    [Fact]
    public async Task Patch_EndsCorrectsAndTakesBack_AndSaysWhatChanged()
    {
        var (asset, other) = (await Client.NewAssetAsync(), await Client.NewAssetAsync());
        var started = await Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}","startAt":"{{Day(1)}}","note":"x","fitterId":"f-1"}""");
        var (id, first) = (started.Id(), (string)started["attachment"]!["eTag"]!);

        using var ended = await Client.PatchAsync(id, $$"""{"endReason":"fell-off","endNotBefore":"{{Day(4)}}","endNotAfter":"{{Day(6)}}"}""", first);
        var answer = (await ended.Content.ReadFromJsonAsync<JsonNode>())!;
        Assert.Equal(["endKind", "endNotAfter", "endNotBefore", "endReason"], answer["changed"]!.AsArray().Select(c => (string)c!["field"]!).Order());
        Assert.Equal(ended.Headers.ETag!.ToString(), (string?)answer["attachment"]!["eTag"]);
        using var stale = await Client.PatchAsync(id, """{"note":null}""", first);
        await HostileRequestTests.Problem(stale, HttpStatusCode.PreconditionFailed, "precondition-failed");

        var exact = await Client.PatchedAsync(id, $$"""{"endAt":"{{Day(5)}}","note":null,"assetId":"{{other}}","fitterId":"f-2"}""");
        Assert.Null(exact["attachment"]!["endNotBefore"] ?? exact["attachment"]!["endNotAfter"] ?? exact["attachment"]!["note"]);
        Assert.Equal(("fell-off", other), ((string?)exact["attachment"]!["endReason"], (string?)exact["attachment"]!["assetId"]));
        var person = exact["changed"]!.AsArray().Single(c => (string?)c!["field"] == "fitterId")!;
        Assert.Null(person["before"] ?? person["after"]);

        var open = await Client.PatchedAsync(id, """{"endReason":null}""");
        Assert.Null(open["attachment"]!["endReason"] ?? open["attachment"]!["endAt"]);
        var never = await Client.PatchedAsync(id, """{"endReason":"never-happened"}""");
        Assert.Equal("recording-mistake", (string?)never["attachment"]!["endKind"]);
        Assert.Empty((await Client.PatchedAsync(id, """{"endReason":"never-happened"}"""))["changed"]!.AsArray());
    }

    [Fact]
    public async Task Patch_BackIntoTheWayOfAnother_Is409()
    {
        var (asset, tag) = (await Client.NewAssetAsync(), NewTag());
        var mistake = await Client.StartedAsync(asset, $$"""{"identity":"{{tag}}","startAt":"{{Day(1)}}"}""");
        await Client.PatchedAsync(mistake.Id(), """{"endReason":"never-happened"}""");
        var right = await Client.StartedAsync(await Client.NewAssetAsync(), $$"""{"identity":"{{tag}}","startAt":"{{Day(1)}}"}""");
        using var back = await Client.PatchAsync(mistake.Id(), """{"endReason":null}""");
        var problem = await HostileRequestTests.Problem(back, HttpStatusCode.Conflict, "conflict");
        Assert.Contains(right.Id(), problem.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{"tagClassId":"hard-metal-mount-larg"}""", "invalid-fields", "#/tagClassId", "hard-metal-mount-large")]
    [InlineData("""{"attachmentMethod":"screw"}""", "invalid-fields", "#/attachmentMethod", "screws")]
    [InlineData("""{"endReason":"fel-off"}""", "invalid-fields", "#/endReason", "fell-off")]
    [InlineData("""{"endPrevious":{"reason":"damagd"}}""", "invalid-fields", "#/endPrevious/reason", "damaged")]
    [InlineData("""{"checkRegion":"atlantis"}""", "invalid-fields", "#/checkRegion", "")]
    [InlineData("""{"labourMinutes":-1}""", "invalid-fields", "#/labourMinutes", "10000")]
    [InlineData("""{"identity":"pump 7"}""", "invalid-fields", "#/identity", "")]
    [InlineData("""{"startAt":"2024-05-04T10:00:00"}""", "invalid-fields", "#/startAt", "")]
    [InlineData("""{"startAt":"2024-05-04T10:00:00Z","startNotAfter":"2024-06-04T10:00:00Z"}""", "contradictory-fields", "#/startAt", "")]
    [InlineData("""{"startAt":"2999-05-04T10:00:00Z"}""", "contradictory-fields", "#/startAt", "")]
    [InlineData("""{"endAt":"2024-05-04T10:00:00Z"}""", "contradictory-fields", "#/endReason", "not-known")]
    [InlineData("""{"startAt":"2024-05-04T10:00:00Z","endReason":"fell-off","endAt":"2024-05-03T10:00:00Z"}""", "contradictory-fields", "#/endAt", "")]
    [InlineData("""{"endReason":"never-happened"}""", "contradictory-fields", "#/endReason", "")]
    [InlineData("""{"answeredAtM":5,"silentAtM":4}""", "contradictory-fields", "#/answeredAtM", "")]
    [InlineData("""{"checkEirpDbm":30}""", "contradictory-fields", "#/answeredAtM", "")]
    [InlineData("""{"endPrevious":{"reason":"damaged"}}""", "conflict", "#/endPrevious/reason", "")]
    public async Task Start_WhatCannotBe_IsRefusedWithItsPlace(string members, string problem, string pointer, string named)
    {
        // The asset that NewAssetAsync makes has no open attachment.
        var asset = await Client.NewAssetAsync();
        var body = (JsonObject)JsonNode.Parse(members)!;
        if (!body.ContainsKey("identity"))
            body["identity"] = NewTag();
        using var answer = await Client.StartAsync(asset, body.ToJsonString());
        var status = problem switch { "invalid-fields" => HttpStatusCode.BadRequest, "conflict" => HttpStatusCode.Conflict, _ => HttpStatusCode.UnprocessableEntity };
        var found = await HostileRequestTests.Problem(answer, status, problem);
        Assert.Equal(pointer, found.Errors![0].Pointer);
        Assert.Contains(named, $"{found.Errors[0].Detail} {found.Errors[0].Accepted}", StringComparison.Ordinal);
        Assert.Single(await Client.OfAssetAsync(asset));
    }

    [Fact]
    public async Task Lists_FollowingLinks_GiveEachAttachmentOnce()
    {
        var asset = await Client.NewAssetAsync();
        for (var i = 0; i < 6; i++)
            await Client.StartedAsync(asset, $$"""{"identity":"{{NewTag()}}"}""");
        var seen = new List<string>();
        for (var next = $"/v1/assets/{asset}/attachments?limit=3"; next is not null;)
        {
            using var answer = await Client.GetAsync(next);
            seen.AddRange((await answer.Content.ReadFromJsonAsync<JsonNode>())!["items"]!.AsArray().Select(i => (string)i!["id"]!));
            next = answer.Headers.TryGetValues("Link", out var links) ? links.Single()[1..links.Single().IndexOf('>', StringComparison.Ordinal)] : null;
        }

        Assert.Equal(7, seen.Distinct().Count());
        Assert.Equal(7, seen.Count);
    }

    [Fact]
    public async Task Start_SameKeyAgain_GivesTheFirstAnswerAndTheETagOfThatState()
    {
        var (asset, body) = (await Client.NewAssetAsync(), $$"""{"identity":"{{NewTag()}}"}""");
        using var first = await Client.StartAsync(asset, body, "attach-1");
        using var second = await Client.StartAsync(asset, body, "attach-1");
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.StatusCode, second.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
        Assert.Equal((first.Headers.ETag, first.Headers.Location), (second.Headers.ETag, second.Headers.Location));
        using var get = await Client.GetAsync(first.Headers.Location);
        Assert.Equal(first.Headers.ETag, get.Headers.ETag);
        // A null is another patch than nothing.
        var id = (await first.Content.ReadFromJsonAsync<JsonNode>())!.Id();
        using var nothing = await Client.PatchAsync(id, "{}", key: "patch-1");
        using var other = await Client.PatchAsync(id, """{"note":null}""", key: "patch-1");
        Assert.Equal(HttpStatusCode.OK, nothing.StatusCode);
        await HostileRequestTests.Problem(other, HttpStatusCode.UnprocessableEntity, "idempotency-key-reused");
    }
}
