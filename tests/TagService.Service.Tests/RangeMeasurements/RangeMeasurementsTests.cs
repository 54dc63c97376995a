using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using TagService.Service.Tests.TagClasses;

namespace TagService.Service.Tests.RangeMeasurements;

/// <summary>Ranges found in the field move and narrow the expected range, and the answer says so. Distances are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RangeMeasurementsTests(RealHost host) : IClassFixture<RealHost>
{
    private const string Record =
        """{"surface":{"material":"MATERIAL","thicknessMm":3,"backing":"air"},"mounting":{"lengthMm":500,"widthMm":300,"maxHeightMm":50},"reading":{"region":"eu","readerKind":"handheld","eirpDbm":30,"site":"warehouse","polarization":"circular","tagOrientation":"any"}}""";

    [Fact]
    public async Task Post_MeasuredRanges_MoveAndNarrowTheExpectedRange()
    {
        const string id = "hard-metal-mount-large", material = "steel";
        var before = await RangeAsync(id, material);
        Assert.StartsWith("planning prior", before.Basis, StringComparison.Ordinal);
        using var answer = await PostAsync([.. Enumerable.Repeat(Finding(id, material, "measured", before.P50 * 0.7), 30)]);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var learnt = Assert.Single((await answer.Content.ReadFromJsonAsync<JsonNode>())!["calibrations"]!.AsArray())!;
        Assert.Equal((id, material, 30, 30), ((string?)learnt["tagClassId"], (string?)learnt["materialId"], (int)learnt["observations"]!, (int)learnt["measured"]!));
        Assert.InRange((double)learnt["meanShiftDb"]!, -6, -1);

        var after = await RangeAsync(id, material);
        Assert.InRange(after.P50, before.P50 * 0.68, before.P50 * 0.8);
        Assert.True(after.P90 / after.P10 < before.P90 / before.P10);
        Assert.StartsWith("30 findings from the field", after.Basis, StringComparison.Ordinal);
        // Neither another class nor another material learns from it.
        Assert.StartsWith("planning prior", (await RangeAsync("hard-metal-mount-small", material)).Basis, StringComparison.Ordinal);
        Assert.StartsWith("planning prior", (await RangeAsync(id, "aluminium")).Basis, StringComparison.Ordinal);
        var all = await host.Client.GetFromJsonAsync<JsonNode>("/v1/range-calibrations");
        Assert.Contains(all!["items"]!.AsArray(), c => JsonNode.DeepEquals(c, learnt));
    }

    // A bound never moves the range the wrong way, wherever it lies.
    [Theory]
    [InlineData("glass", 0.1)]
    [InlineData("abs", 0.9)]
    [InlineData("oak", 1.3)]
    [InlineData("cardboard", 3)]
    public async Task Post_OneBound_NeverMovesTheRangeTheWrongWay(string material, double factor)
    {
        const string longer = "polymer-label-medium", shorter = "paper-label-medium";
        var (up, down) = (await RangeAsync(longer, material), await RangeAsync(shorter, material));
        using var answer = await PostAsync(
            [Finding(longer, material, "answers-at-least", up.P50 * factor), Finding(shorter, material, "silent-at", down.P50 * factor)]);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        var (raised, lowered) = (await RangeAsync(longer, material), await RangeAsync(shorter, material));
        // Answers are rounded to the millimetre.
        Assert.True(raised.P50 >= up.P50 - 0.001 && raised.P10 >= up.P10 - 0.001);
        Assert.True(lowered.P50 <= down.P50 + 0.001 && lowered.P90 <= down.P90 + 0.001);
        if (factor > 1)
            Assert.True(raised.P50 > up.P50 * 1.02);
        else
            Assert.True(lowered.P50 < down.P50 * 0.99);
        Assert.StartsWith("1 finding from the field", raised.Basis, StringComparison.Ordinal);
    }

    // Tags measured only because they failed say less against the class than the same ranges of a fair sample.
    [Fact]
    public async Task Post_SelectedCases_PullLessThanAFairSample()
    {
        const string material = "stainless-steel", fair = "slim-metal-mount-label-large", selected = "slim-metal-mount-label-medium";
        var (a, b) = (await RangeAsync(fair, material), await RangeAsync(selected, material));
        var findings = Enumerable.Range(0, 10).SelectMany(_ => new[]
        {
            Finding(fair, material, "measured", a.P50 * 0.5), Finding(selected, material, "failed-check", b.P50 * 0.5, b.P50 * 0.8),
        });
        using var answer = await PostAsync([.. findings]);
        var learnt = (await answer.Content.ReadFromJsonAsync<JsonNode>())!["calibrations"]!.AsArray();
        Assert.True(Shift(fair) < -4);
        Assert.True(Shift(selected) > Shift(fair) + 1);

        double Shift(string id) => (double)learnt.Single(c => (string?)c!["tagClassId"] == id)!["meanShiftDb"]!;
    }

    [Fact]
    public async Task Post_SameKeyAgain_IsStoredOnce()
    {
        var body = Body([Finding("hard-metal-mount-mini", "steel", "measured", 1.2)]);
        using var first = await SendAsync(body, "key-1");
        var before = await CountAsync();
        using var second = await SendAsync(body, "key-1");
        Assert.Equal(HttpStatusCode.OK, second.StatusCode);
        Assert.Equal((false, true), ((bool)(await first.Content.ReadFromJsonAsync<JsonNode>())!["repeated"]!, (bool)(await second.Content.ReadFromJsonAsync<JsonNode>())!["repeated"]!));
        Assert.Equal(before, await CountAsync());
        using var other = await SendAsync(Body([Finding("hard-metal-mount-mini", "steel", "measured", 1.3)]), "key-1");
        await HostileRequestTests.Problem(other, HttpStatusCode.UnprocessableEntity, "idempotency-key-reused");
        using var bad = await SendAsync(body, "a b");
        await HostileRequestTests.Problem(bad, HttpStatusCode.BadRequest, "invalid-request");

        // Many at once under one key are one; each request without a key counts.
        var together = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => SendAsync(body, "key-2")));
        Assert.All(together, t => Assert.Equal(HttpStatusCode.OK, t.StatusCode));
        Assert.Equal(before + 1, await CountAsync());
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => SendAsync(body, null)));
        Assert.Equal(before + 5, await CountAsync());
        var pair = (await host.Client.GetFromJsonAsync<JsonNode>("/v1/range-calibrations"))!["items"]!.AsArray().Single(c => (string?)c!["tagClassId"] == "hard-metal-mount-mini");
        Assert.Equal(6, (int)pair!["observations"]!);
    }

    /// <summary>Paging by Link header: RFC 8288, section 3.</summary>
    [Fact]
    public async Task List_FollowingLinks_GivesEachFindingOnceAsRecorded()
    {
        using var stored = await PostAsync([.. Enumerable.Range(1, 5).Select(i => Finding("cable-flag-label", "pvc", "measured", 1 + (i * 0.1)))]);
        Assert.True(stored.IsSuccessStatusCode, await stored.Content.ReadAsStringAsync());
        var seen = new List<JsonNode>();
        for (var next = "/v1/range-measurements?limit=2"; next is not null;)
        {
            using var answer = await host.Client.GetAsync(next);
            var page = (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
            seen.AddRange(page["items"]!.AsArray().Select(i => i!));
            next = answer.Headers.TryGetValues("Link", out var links) ? links.Single()[1..links.Single().IndexOf('>', StringComparison.Ordinal)] : null;
        }

        Assert.Equal(seen.Select(s => (long)s["id"]!).Distinct().Order(), seen.Select(s => (long)s["id"]!));
        var mine = seen.Where(s => (string?)s["tagClassId"] == "cable-flag-label").ToArray();
        Assert.Equal([1.1, 1.2, 1.3, 1.4, 1.5], mine.Select(m => Math.Round((double)m["rangeM"]!, 6)));
        Assert.All(mine, m => Assert.Equal(("measured", "warehouse", "circular", 3.0), ((string?)m["kind"], (string?)m["reading"]!["site"], (string?)m["reading"]!["polarization"], (double)m["thicknessMm"]!)));
    }

    [Theory]
    [InlineData("limit=0")]
    [InlineData("limit=x")]
    [InlineData("after=-1")]
    [InlineData("after=99999999999999999999")]
    public async Task List_BadParameter_Is400(string query)
    {
        using var answer = await host.Client.GetAsync($"/v1/range-measurements?{query}");
        await HostileRequestTests.Problem(answer, HttpStatusCode.BadRequest, "invalid-request");
    }

    [Theory]
    [InlineData("tagClassId", "\"hard-metal-mount-larg\"", "invalid-fields")]
    [InlineData("material", "\"unobtainium\"", "invalid-fields")]
    [InlineData("backing", "\"\"", "invalid-fields")]
    [InlineData("attachmentMethod", "\"spit\"", "invalid-fields")]
    [InlineData("reading/region", "\"atlantis\"", "invalid-fields")]
    [InlineData("reading/site", "\"moon\"", "invalid-fields")]
    [InlineData("kind", "\"guessed\"", "invalid-fields")]
    [InlineData("rangeM", "0", "invalid-fields")]
    [InlineData("rangeM", "\"4\"", "invalid-fields")]
    [InlineData("note", "\"\\u0000\"", "invalid-fields")]
    [InlineData("measuredAt", "\"2999-05-04T10:00:00Z\"", "contradictory-fields")]
    [InlineData("checkM", "9", "contradictory-fields")]
    [InlineData("kind", "\"failed-check\"", "contradictory-fields")]
    [InlineData("reading/readerKind", "\"phone\"", "contradictory-fields")]
    [InlineData("rangeM", "190", "contradictory-fields", "cable-flag-label")] // a flag label has no 190 m on a handheld reader at 0 dBm
    public async Task Post_FaultyFinding_StoresNothingAndNamesThePlace(string path, string json, string problem, string id = "hard-metal-mount-large")
    {
        var before = await CountAsync();
        var faulty = Finding(id, "steel", "measured", 2);
        if (json == "190")
            faulty["reading"]!["eirpDbm"] = 0;
        else
            ((JsonObject)faulty["reading"]!).Remove("eirpDbm"); // a telephone has none
        var steps = path.Split('/');
        (steps.Length == 1 ? faulty : faulty[steps[0]]!)[steps[^1]] = JsonNode.Parse(json);
        using var answer = await PostAsync([Finding("hard-metal-mount-large", "steel", "measured", 2), faulty]);
        var found = await HostileRequestTests.Problem(answer, problem == "invalid-fields" ? HttpStatusCode.BadRequest : HttpStatusCode.UnprocessableEntity, problem);
        Assert.StartsWith("#/measurements/1/", found.Errors![0].Pointer, StringComparison.Ordinal);
        Assert.Equal(before, await CountAsync());
    }

    [Fact]
    public async Task Post_TooManyOrNone_Is400()
    {
        using var none = await PostAsync([]);
        await HostileRequestTests.Problem(none, HttpStatusCode.BadRequest, "invalid-fields");
        using var many = await PostAsync([.. Enumerable.Repeat(Finding("hard-metal-mount-large", "steel", "measured", 2), 1001)]);
        await HostileRequestTests.Problem(many, HttpStatusCode.BadRequest, "invalid-fields");
    }

    private static JsonObject Finding(string id, string material, string kind, double rangeM, double? checkM = null)
    {
        var finding = (JsonObject)JsonNode.Parse(
            """{"thicknessMm":3,"lengthMm":500,"widthMm":300,"reading":{"region":"eu","readerKind":"handheld","eirpDbm":30,"site":"warehouse","polarization":"circular","tagOrientation":"any"}}""")!;
        (finding["tagClassId"], finding["material"], finding["kind"], finding["rangeM"]) = (id, material, kind, rangeM);
        if (checkM is not null)
            finding["checkM"] = checkM;
        return finding;
    }

    private static string Body(IEnumerable<JsonObject> findings) => new JsonObject { ["measurements"] = new JsonArray([.. findings.Select(f => f.DeepClone())]) }.ToJsonString();

    private Task<HttpResponseMessage> PostAsync(IReadOnlyList<JsonObject> findings) => SendAsync(Body(findings), null);

    private async Task<HttpResponseMessage> SendAsync(string body, string? key)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/range-measurements") { Content = new StringContent(body, Encoding.UTF8, "application/json") };
        if (key is not null)
            request.Headers.Add("Idempotency-Key", key);
        return await host.Client.SendAsync(request);
    }

    private async Task<(double P10, double P50, double P90, string Basis)> RangeAsync(string id, string material)
    {
        var candidate = (await host.Client.RecommendAsync(Record.Replace("MATERIAL", material, StringComparison.Ordinal))).Candidate(id);
        var range = candidate["expectedRange"]!;
        return ((double)range["p10M"]!, (double)range["p50M"]!, (double)range["p90M"]!, (string)candidate["rangeBasis"]!);
    }

    private async Task<int> CountAsync()
    {
        var count = 0;
        for (long? after = 0; after is not null;)
        {
            var page = (await host.Client.GetFromJsonAsync<JsonNode>(string.Create(CultureInfo.InvariantCulture, $"/v1/range-measurements?limit=1000&after={after}")))!;
            count += page["items"]!.AsArray().Count;
            after = (long?)page["nextAfter"];
        }

        return count;
    }
}
