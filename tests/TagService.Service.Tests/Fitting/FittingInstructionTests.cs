using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using TagService.Domain.Recommendations;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Fitting;

/// <summary>The instruction through the real host: negotiation, refusals, assets without a class, the way from instruction to attachment.</summary>
[Collection(TestDatabase.Collection)]
public sealed class FittingInstructionTests(TestDatabase server)
{
    /// <summary>RFC 9110, section 12.5.1: quality values and specificity.</summary>
    [Theory]
    [InlineData(null, "application/json")]
    [InlineData("*/*", "application/json")]
    [InlineData("text/html", "text/html")]
    [InlineData("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", "text/html")] // what browsers send
    [InlineData("text/html;q=0.4, application/json;q=0.5", "application/json")]
    [InlineData("text/*;q=0.9, application/json;q=0.2", "text/html")]
    [InlineData("image/png", "application/json")]
    public async Task Accept_DecidesTheForm(string? accept, string expected)
    {
        await using var host = await FittingHost.StartAsync(server, "fit_accept", FittingHost.Asset("L-1"));
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/assets/L-1/fitting-instruction");
        if (accept is not null)
            request.Headers.Add("Accept", accept);
        using var answer = await host.Client.SendAsync(request);
        Assert.Equal(expected, answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal("Accept", answer.Headers.Vary.Single());
    }

    [Theory]
    [InlineData("nobody", "", HttpStatusCode.NotFound, "/v1/assets")]
    [InlineData("L-1", "format=pdf", HttpStatusCode.BadRequest, "format")]
    [InlineData("L-1", "additional=true&replacement=true", HttpStatusCode.BadRequest, "further tag")]
    [InlineData("L-1", "identity=nonsense", HttpStatusCode.BadRequest, "identity")]
    [InlineData("L-1", "additional=perhaps", HttpStatusCode.BadRequest, "true or false")]
    public async Task Get_BadRequest_SaysWhatIsWrong(string asset, string query, HttpStatusCode status, string reason)
    {
        await using var host = await FittingHost.StartAsync(server, "fit_bad", FittingHost.Asset("L-1"));
        using var answer = await host.Client.GetAsync($"/v1/assets/{asset}/fitting-instruction?{query}");
        Assert.Equal(status, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains(reason, (await answer.Content.ReadFromJsonAsync<JsonNode>())!["detail"]!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Get_NoNumberingRule_IsGivenAllTheSameAndSaysWhatToSetUp()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_norule", FittingHost.Asset("L-1"));
        var answer = await host.InstructionAsync("L-1");
        Assert.NotNull(answer["fitting"]!["tagClassId"]);
        Assert.Null(answer["identity"]);
        Assert.Contains("/v1/numbering-rules", (string)answer["identityNote"]!, StringComparison.Ordinal);
        Assert.Null(answer["recording"]!["body"]!["identity"]);
    }

    /// <summary>No built-in class has a certificate for explosive atmospheres, so none suits there: an answer, and no number is used up.</summary>
    [Fact]
    public async Task Get_NoSuitableClass_SaysWhatWouldHaveToChangeAndTakesNoIdentity()
    {
        var record = new AssetRecord
        {
            AssetId = "G-1", Category = "gas detector", Environment = new() { HazardousArea = new() { Zone = "1", Group = "IIB", TemperatureClass = "T4" } },
        };
        await using var host = await FittingHost.StartAsync(server, "fit_none", (record, null));
        await host.SetUpNumbersAsync();
        var answer = await host.InstructionAsync("G-1");
        Assert.Null(answer["fitting"]);
        Assert.Null(answer["identity"]);
        Assert.NotEmpty(answer["noneBecause"]!["changes"]!.AsArray());
        Assert.Contains(answer["cautions"]!.AsArray(), c => (string)c!["id"]! == "explosive-atmosphere");
        Assert.Equal(0L, await host.Storage.CountAsync("reserved_identities"));

        var (_, page) = await host.PageAsync("/v1/assets/G-1/fitting-instruction?format=html");
        Assert.Contains("Do not fit a tag yet", page.Body!.TextContent, StringComparison.Ordinal);
        Assert.Contains((string)answer["noneBecause"]!["changes"]![0]!["sentence"]!, page.Body.TextContent, StringComparison.Ordinal);
    }

    /// <summary>The whole way: instruction, recording as it says, next instruction. GIAI-96 of number 1000: TDS 2.3, section 14.6.5 by hand.</summary>
    [Fact]
    public async Task Record_AsTheInstructionSays_UsesTheIdentityUp()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_way", FittingHost.Asset("L-1"));
        await host.SetUpNumbersAsync();
        var first = await host.InstructionAsync("L-1");
        Assert.Equal("8004:95211411000", (string?)first["identity"]!["canonical"]);
        // Header 34, filter 0, partition 5 (7-digit prefix), prefix 9521141, reference 1000: worked out bit by bit.
        Assert.Equal("3416451FD4000000000003E8", (string?)first["identity"]!["epcHex"]);
        Assert.Equal("3000", (string?)first["identity"]!["pcHex"]);

        var attachment = await host.RecordAsync(first, ("tidHex", "E2801160200051234567890A"), ("silentAtM", 0.5), ("checkEirpDbm", 20.9));

        var second = await host.InstructionAsync("L-1");
        Assert.Equal((string?)first["identity"]!["canonical"], (string?)second["attachedNow"]![0]!["identity"]);
        Assert.Equal((string?)attachment["attachment"]!["id"], (string?)second["attachedNow"]![0]!["attachmentId"]);
        Assert.Null(second["identity"]);
        Assert.Contains("replacement=true", (string)second["identityNote"]!, StringComparison.Ordinal);
        Assert.Equal("8004:95211411001", await host.IdentityAsync("L-1", "replacement=true"));
        Assert.Equal("8004:95211411002", await host.IdentityAsync("L-1", "additional=true"));
        Assert.Equal("8004:95211411001", await host.IdentityAsync("L-1", "replacement=true"));
        Assert.Equal(
            "created,changed",
            await host.Storage.ScalarAsync("SELECT string_agg(action, ',' ORDER BY id) FROM changes WHERE kind = 'reserved-identity' AND key = '8004:95211411000'"));
    }

    [Fact]
    public async Task Get_EncodedTag_IsCheckedForBeingFree()
    {
        await using var host = await FittingHost.StartAsync(server, "fit_encoded", FittingHost.Asset("L-1"), FittingHost.Asset("L-2"), FittingHost.Asset("L-3"));
        await host.SetUpNumbersAsync();
        await host.RecordAsync(await host.InstructionAsync("L-1"));
        await host.InstructionAsync("L-2");

        // In whatever form: the attached one as bits, the reserved one as a Digital Link.
        Assert.Contains("L-1", await RefusalAsync("3416451FD4000000000003E8"), StringComparison.Ordinal);
        Assert.Contains("L-2", await RefusalAsync("https://id.gs1.org/8004/95211411001"), StringComparison.Ordinal);
        var free = await host.InstructionAsync("L-3", $"identity={Uri.EscapeDataString("urn:epc:tag:giai-96:0.9521141.77")}");
        Assert.Equal("8004:952114177", (string?)free["identity"]!["canonical"]);
        Assert.False((bool)free["identity"]!["reserved"]!);
        Assert.Equal(2L, await host.Storage.CountAsync("reserved_identities"));

        async Task<string> RefusalAsync(string identity)
        {
            using var answer = await host.Client.GetAsync($"/v1/assets/L-3/fitting-instruction?identity={Uri.EscapeDataString(identity)}");
            Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
            return (await answer.Content.ReadFromJsonAsync<JsonNode>())!["detail"]!.ToString();
        }
    }
}
