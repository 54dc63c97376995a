using System.Net;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;

namespace TagService.Service.Tests.Registers;

/// <summary>Runs as HTTP, without a worker: what a worker would have done is put into the tables. All rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RegisterSyncsEndpointsTests(RegisterApiHost host) : IClassFixture<RegisterApiHost>
{
    private const string Root = "/v1/register-syncs";

    [Fact]
    public async Task Request_OfADisabledSource_WaitsAndASecondOneIsToldOfIt()
    {
        await GivenSourceAsync("asked", """, "enabled":false""");

        using var asked = await host.Client.SendJsonAsync(Root, """{"source":"asked"}""");
        Assert.Equal(HttpStatusCode.Accepted, asked.StatusCode);
        var run = await asked.JsonAsync();
        Assert.Equal($"{Root}/{run["id"]}", asked.Headers.Location!.ToString());
        Assert.Equal(("waiting", false, "unnamed-caller"), ((string?)run["state"], (bool)run["fullPass"]!, (string?)run["requestedBy"]));

        using var again = await host.Client.SendJsonAsync(Root, """{"source":"asked","acceptMissing":true}""");
        var open = await again.JsonAsync();
        Assert.Equal((HttpStatusCode.OK, (long)run["id"]!, "already-open"), (again.StatusCode, (long)open["id"]!, (string?)open["notices"]![0]!["code"]));
        Assert.Contains("less than you ask for", (string?)open["notices"]![0]!["detail"], StringComparison.Ordinal);

        using var cancelled = await host.Client.PostAsync($"{Root}/{run["id"]}/cancel", null);
        Assert.Equal("cancelled", (string?)(await cancelled.JsonAsync())["state"]);
        using var twice = await host.Client.PostAsync($"{Root}/{run["id"]}/cancel", null);
        Assert.Equal(HttpStatusCode.OK, twice.StatusCode);
        using var full = await host.Client.SendJsonAsync(Root, """{"source":"asked","acceptMissing":true}""");
        var second = await full.JsonAsync();
        Assert.Equal((HttpStatusCode.Accepted, true, true), (full.StatusCode, (bool)second["fullPass"]!, (bool)second["acceptMissing"]!));

        await host.SqlAsync($"UPDATE register_syncs SET state = 'done', ended_at = now() WHERE id = {second["id"]}");
        using var late = await host.Client.PostAsync($"{Root}/{second["id"]}/cancel", null);
        await HostileRequestTests.Problem(late, HttpStatusCode.Conflict, "conflict");
        using var none = await host.Client.PostAsync($"{Root}/999999/cancel", null);
        await HostileRequestTests.Problem(none, HttpStatusCode.NotFound, "not-found");
    }

    [Fact]
    public async Task Request_ManyAtOnce_MakeOneRun()
    {
        await GivenSourceAsync("raced");
        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => host.Client.SendJsonAsync(Root, """{"source":"raced"}""")));
        Assert.Single(answers, a => a.StatusCode == HttpStatusCode.Accepted);
        Assert.Equal(11, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
        Assert.Single(await host.Client.ListAsync($"{Root}?source=raced"));
    }

    [Theory]
    [InlineData("""{"source":"no such"}""", "#/source")]
    [InlineData("""{"source":"a\u0000"}""", "#/source")]
    [InlineData("""{"fullPass":true}""", "#/source")]
    [InlineData("""{"source":"x","full":true}""", "#/full")]
    public async Task Request_Faulty_NamesThePlace(string body, string pointer)
    {
        using var answer = await host.Client.SendJsonAsync(Root, body);
        var problem = await HostileRequestTests.Problem(answer, HttpStatusCode.BadRequest, "invalid-fields");
        Assert.Contains(problem.Errors!, e => e.Pointer == pointer);
    }

    [Fact]
    public async Task Get_RunWithNotes_ShowsCountsProgressAndNotes()
    {
        await GivenSourceAsync("shown");
        using var asked = await host.Client.SendJsonAsync(Root, """{"source":"shown","fullPass":true}""");
        var id = (long)(await asked.JsonAsync())["id"]!;
        await host.SqlAsync($$$"""
            UPDATE register_syncs SET state = 'held', started_at = now() - interval '90 s', ended_at = now(), rows = 50, announced = 200, created = 7, changed = 8, unchanged = 30, refused = 3,
              repeated = 2, brought_back = 1, missing = 60, retired = 0, reason_code = 'too-many-missing', reason_detail = 'Sixty of 100 assets are missing.',
              notes = '{"notices":[{"code":"encoding-detected","detail":"windows-1252"}],"doubts":["Changed meanwhile."],"values":[{"kind":"refuses","field":"/retired","value":"vielleicht","detail":"d","accepted":"a","count":3}],"valuesNotListed":4}'
            WHERE id = {{{id}}}
            """);

        var run = await (await host.Client.GetAsync($"{Root}/{id}")).JsonAsync();

        Assert.Equal((0.25, 50L, 200L, 60L, "too-many-missing"), ((double)run["progress"]!, (long)run["rows"]!, (long)run["announced"]!, (long)run["missing"]!, (string?)run["reasonCode"]));
        Assert.InRange((double)run["seconds"]!, 89.9, 90.1);
        Assert.Equal(("encoding-detected", "Changed meanwhile.", "vielleicht", 3L, 4L), (
            (string?)run["notices"]![0]!["code"], (string?)run["doubts"]![0], (string?)run["values"]![0]!["value"], (long)run["values"]![0]!["count"]!, (long)run["valuesNotListed"]!));
        Assert.Equal([id], (await host.Client.ListAsync($"{Root}?source=shown&state=held")).Select(r => (long)r["id"]!));
        Assert.Empty(await host.Client.ListAsync($"{Root}?source=shown&state=running"));
        var source = await (await host.Client.GetItemAsync("/v1/register-sources/shown")).JsonAsync();
        Assert.Equal(("held", 50L), ((string?)source["state"]!["lastRun"]!["state"], (long)source["state"]!["lastRun"]!["rows"]!));
        using var wrong = await host.Client.GetAsync($"{Root}?state=over");
        await HostileRequestTests.Problem(wrong, HttpStatusCode.BadRequest, "invalid-request");
    }

    [Fact]
    public async Task RejectedRows_JsonAndCsv_AreGivenInOrderWithoutFormulas()
    {
        await GivenSourceAsync("refusing");
        using var asked = await host.Client.SendJsonAsync(Root, """{"source":"refusing"}""");
        var id = (long)(await asked.JsonAsync())["id"]!;
        await host.SqlAsync($$"""
            INSERT INTO rejected_rows (sync_id, number, place, asset_id, reason, problems, original_text)
            SELECT {{id}}, n, 'line ' || n, '=cmd|calc', 'No key.', '[{"kind":"refuses","field":"/assetId","value":"+1","detail":"d","accepted":"a","count":1}]', '@SUM(A1);"x"'
            FROM generate_series(1, 5) AS n
            """);

        var rows = await host.Client.ListAsync($"{Root}/{id}/rejected-rows?limit=2");
        Assert.Equal([1, 2, 3, 4, 5], rows.Select(r => (long)r["number"]!));
        Assert.Equal(("line 1", "=cmd|calc", "/assetId", "@SUM(A1);\"x\""), ((string?)rows[0]["place"], (string?)rows[0]["assetId"], (string?)rows[0]["problems"]![0]!["field"], (string?)rows[0]["originalText"]));

        using var request = new HttpRequestMessage(HttpMethod.Get, $"{Root}/{id}/rejected-rows?limit=2");
        request.Headers.Add("Accept", "text/csv");
        using var csv = await host.Client.SendAsync(request);
        var lines = (await csv.Content.ReadAsStringAsync()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("text/csv", csv.Content.Headers.ContentType!.MediaType);
        Assert.Equal("\"1\",\"line 1\",\"'=cmd|calc\",\"No key.\",\"/assetId: +1: d Accepted: a\",\"'@SUM(A1);\"\"x\"\"\"", lines[1]);
        Assert.Contains("rel=\"next\"", csv.Headers.GetValues("Link").Single(), StringComparison.Ordinal);
        using var none = await host.Client.GetAsync($"{Root}/999999/rejected-rows");
        await HostileRequestTests.Problem(none, HttpStatusCode.NotFound, "not-found");
    }

    private Task GivenSourceAsync(string name, string more = "") => host.Client.GivenAsync(($"/v1/register-sources/{name}",
        $$"""{"http":{"address":"https://register.example/"},"mapping":{"rows":[{"target":"/assetId","source":"/id"}]}{{more}}}"""));
}
