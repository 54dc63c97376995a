using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using TagService.Service.Tests.Contract;
using TagService.Service.Tests.Database;

namespace TagService.Service.Tests.Identities;

/// <summary>
/// Identities over HTTP. Expected values are rows of GS1 EPC Tag Data Standard 2.3, annex E.3 (read), unless another source stands beside them.
/// </summary>
[Collection(TestDatabase.Collection)]
public sealed class IdentitiesEndpointsTests(RealHost host) : IClassFixture<RealHost>
{
    [Fact]
    public async Task Decode_AGiai_GivesEveryForm()
    {
        var answer = await OkAsync("decode", """{"epcHex":"3476451fd40000000000162e","pcHex":"3000","tidHex":"E28AB12320000123456789AB"}""");

        Assert.Equal(
            ("8004:95211415678", "giai", "GIAI-96", 3),
            ((string?)answer["identity"], (string?)answer["kind"], (string?)answer["scheme"], (int?)answer["filter"]));
        Assert.Equal(
            ("urn:epc:id:giai:9521141.5678", "urn:epc:tag:giai-96:3.9521141.5678", "(8004)95211415678", "https://id.gs1.org/8004/95211415678"),
            ((string?)answer["pureIdentityUri"], (string?)answer["tagUri"], (string?)answer["elementString"], (string?)answer["digitalLink"]));
        Assert.Equal(("8004", "95211415678", "9521141"), ((string?)answer["key"]!["ai"], (string?)answer["key"]!["value"], (string?)answer["key"]!["companyPrefix"]));
        Assert.Equal(96, (int)answer["pc"]!["epcBits"]!);
        // Synthetic TID by TDS 2.3, section 16.
        Assert.Equal(("e2", "urn:epc:stid:x8AB.x123.x0123456789AB"), ((string?)answer["tid"]!["allocationClass"], (string?)answer["tid"]!["stidUri"]));
        Assert.Empty(answer["notes"]!.AsArray());
        Assert.Null(answer["rawUri"]);
    }

    [Theory]
    [InlineData("""{"epcHex":"3066C4409047E14000001A85"}""", "01:09506000134352:21:6789")]
    [InlineData("""{"identity":"(01)09506000134352(21)6789"}""", "01:09506000134352:21:6789")]
    [InlineData("""{"identity":"urn:epc:tag:sgtin-198:0.95060001343.05.6789"}""", "01:09506000134352:21:6789")]
    [InlineData("""{"epcHex":"F43952114112345678906"}""", "8018:952114112345678906")]
    [InlineData("""{"epcHex":"2F320434147455900000162E"}""", "urn:epc:id:usdod:CAGEY.5678")]
    public async Task Decode_OneIdentityInManyForms_IsOneText(string body, string identity) =>
        Assert.Equal(identity, (string?)(await OkAsync("decode", body))["identity"]);

    [Fact]
    public async Task Decode_APlusScheme_HasAUrnOnlyWithTheOwnersPrefix()
    {
        var without = await OkAsync("decode", """{"epcHex":"EE3952114132E83C2BF1494197C61DBC3665B600"}""");
        var with = await OkAsync("decode", """{"epcHex":"EE3952114132E83C2BF1494197C61DBC3665B600","companyPrefixes":["9521141"]}""");

        Assert.Null(without["pureIdentityUri"]);
        Assert.Contains("company prefix", (string?)Assert.Single(without["notes"]!.AsArray()));
        Assert.Equal("https://id.example.com/8004/952114132a%2Fb", (string?)without["digitalLink"]);
        Assert.Equal("urn:epc:id:giai:9521141.32a%2Fb", (string?)with["pureIdentityUri"]);
        Assert.Empty(with["notes"]!.AsArray());
    }

    // TDS 2.3, sections 14.4 and 15.2.1 (read): bits that do not decode become a raw URI.
    [Theory]
    [InlineData("""{"epcHex":"301C00000000000000000000"}""", "urn:epc:raw:96.x301C00000000000000000000", "partition")]
    [InlineData("""{"epcHex":"000000000000000000000000"}""", "urn:epc:raw:96.x000000000000000000000000", "never programmed")]
    [InlineData("""{"epcHex":"3476451FD40000000000162E","pcHex":"31A1"}""", "urn:epc:raw:96.xA1.x3476451FD40000000000162E", "ISO/IEC 15961")]
    public async Task Decode_UndecodableBits_AreRawAndNoError(string body, string raw, string note)
    {
        var answer = await OkAsync("decode", body);

        Assert.Equal((raw, raw, "raw"), ((string?)answer["identity"], (string?)answer["rawUri"], (string?)answer["kind"]));
        Assert.Contains(answer["notes"]!.AsArray(), n => ((string)n!).Contains(note, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{"tidHex":"E28AB1232000012345"}""", "incomplete")]
    [InlineData("""{"tidHex":"E20AB123"}""", "one chip")]
    [InlineData("""{"epcHex":"3476451FD40000000000162EABCD","pcHex":"3000"}""", "left aside")]
    [InlineData("""{"epcHex":"3476451FD40000000000162E","pcHex":"3800"}""", "may be missing")]
    public async Task Decode_DoubtfulReads_AreNoted(string body, string note) =>
        Assert.Contains((await OkAsync("decode", body))["notes"]!.AsArray(), n => ((string)n!).Contains(note, StringComparison.Ordinal));

    [Theory]
    [InlineData("decode", "{}", 400, "#", "epcHex")]
    [InlineData("decode", """{"identity":"PUMP-0815"}""", 400, "#/identity", "urn:epc:id")]
    [InlineData("decode", """{"identity":"(01)09506000134353(21)1"}""", 400, "#/identity", "2")]
    [InlineData("decode", """{"epcHex":"34 76"}""", 400, "#/epcHex", "matching")]
    [InlineData("decode", """{"pcHex":"300"}""", 400, "#/pcHex", "matching")]
    [InlineData("decode", """{"tidHex":"E28"}""", 400, "#/tidHex", "matching")]
    [InlineData("decode", """{"epcHex":"3476","companyPrefixes":["9521141","12345"]}""", 400, "#/companyPrefixes/1", "6 to 12 digits")]
    [InlineData("decode", """{"epcHex":"3476451FD40000000000162E","identity":"(8004)95211415679"}""", 422, "#/identity", null)]
    [InlineData("encode", """{"scheme":"GIAI-64","companyPrefix":"9521141","reference":"5678"}""", 400, "#/scheme", "GIAI-96")]
    [InlineData("encode", """{"scheme":"GIAI-96","companyPrefix":"95211","reference":"5678"}""", 400, "#/companyPrefix", "matching")]
    [InlineData("encode", """{"scheme":"GIAI-96","companyPrefix":"9521141"}""", 400, "#/reference", "identity")]
    [InlineData("encode", """{"scheme":"GIAI-96","companyPrefix":"9521141","reference":"1","serial":"1"}""", 400, "#/serial", "absent")]
    [InlineData("encode", """{"scheme":"GRAI-96","companyPrefix":"9521141","assetType":"1234","serial":"1"}""", 400, "#/assetType", "5 digits")]
    [InlineData("encode", """{"scheme":"GIAI+","companyPrefix":"9521141","reference":"a b"}""", 400, "#/reference", "set of 82")]
    [InlineData("encode", """{"scheme":"GIAI-96","companyPrefix":"9521141","reference":"5678","filter":8}""", 400, "#/filter", "0 to 7")]
    [InlineData("encode", """{"scheme":"GIAI-96","companyPrefix":"9521141","reference":"0078"}""", 422, "#/reference", "without leading zeros")]
    // One above the 38 bits of the serial (TDS 2.3, section 14.6.1.1, read).
    [InlineData("encode", """{"scheme":"SGTIN-96","companyPrefix":"9521141","itemReference":"012345","serial":"274877906944"}""", 422, "#/serial", "274877906943")]
    [InlineData("encode", """{"scheme":"GIAI-96","identity":"(8004)95211415678"}""", 422, "#/companyPrefix", "6 to 12 digits")]
    [InlineData("encode", """{"scheme":"GIAI-96","identity":"(8004)95211415678","companyPrefix":"0614141"}""", 422, "#/companyPrefix", null)]
    [InlineData("encode", """{"scheme":"GIAI-96","identity":"(8003)095211411234545678","companyPrefix":"9521141"}""", 422, "#/scheme", "Grai")]
    public async Task Post_WhatCannotBe_NamesFieldAndWhatWouldDo(string operation, string body, int status, string pointer, string? accepted)
    {
        using var answer = await PostAsync(operation, body);
        var problem = (await answer.Content.ReadFromJsonAsync<JsonNode>())!;

        Assert.Equal(status, (int)answer.StatusCode);
        var error = problem["errors"]!.AsArray().First(e => (string?)e!["pointer"] == pointer)!;
        Assert.NotEmpty((string)error["detail"]!);
        if (accepted is not null)
            Assert.Contains(accepted, (string?)error["accepted"]);
    }

    [Theory]
    [InlineData("""{"scheme":"GIAI-96","companyPrefix":"9521141","reference":"5678","filter":3}""", "3476451FD40000000000162E", "3000", 96)]
    [InlineData("""{"scheme":"GIAI-202","companyPrefix":"9521141","reference":"32a/b","filter":3}""", "3876451FD59B2C2BF10000000000000000000000000000000000", "6800", 208)]
    [InlineData("""{"scheme":"GIAI+","companyPrefix":"9521141","reference":"32a/b","filter":3}""", "FA3952114132E83C2BF10000", "3000", 96)]
    [InlineData("""{"scheme":"GRAI-96","companyPrefix":"9521141","assetType":"12345","serial":"5678","filter":3}""", "3376451FD40C0E400000162E", "3000", 96)]
    [InlineData("""{"scheme":"GRAI-170","companyPrefix":"9521141","assetType":"12345","serial":"32a/b","filter":3}""", "3776451FD40C0E59B2C2BF1000000000000000000000", "5800", 176)]
    [InlineData("""{"scheme":"GRAI+","companyPrefix":"9521141","assetType":"12345","serial":"32a/b","filter":3}""", "F13095211411234548566CB0AFC4", "3800", 112)]
    [InlineData("""{"scheme":"SGTIN-96","companyPrefix":"95060001343","itemReference":"05","serial":"6789","filter":3}""", "3066C4409047E14000001A85", "3000", 96)]
    [InlineData("""{"scheme":"SGTIN-198","companyPrefix":"95060001343","itemReference":"05","serial":"32a/b","filter":3}""", "3666C4409047E159B2C2BF100000000000000000000000000000", "6800", 208)]
    [InlineData("""{"scheme":"SGTIN+","identity":"(01)79521141123453(21)32a/b","filter":3}""", "F73795211411234538566CB0AFC4", "3800", 112)]
    public async Task Encode_ThePrintedKeys_GivesThePrintedBits(string body, string hex, string pc, int memoryBits)
    {
        var answer = await OkAsync("encode", body);

        Assert.Equal((hex, pc, memoryBits), ((string?)answer["epcHex"], (string?)answer["pcHex"], (int)answer["memoryBits"]!));
        var decoded = await OkAsync("decode", new JsonObject { ["epcHex"] = hex, ["pcHex"] = pc }.ToJsonString());
        Assert.Equal((string?)decoded["identity"], (string?)answer["identity"]);
        Assert.Equal((string?)decoded["tagUri"], (string?)answer["tagUri"]);
        Assert.Equal(4, ((string)answer["crcHex"]!).Length);
    }

    private async Task<JsonNode> OkAsync(string operation, string body)
    {
        using var answer = await PostAsync(operation, body);
        Assert.True(answer.StatusCode == HttpStatusCode.OK, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync<JsonNode>())!;
    }

    private Task<HttpResponseMessage> PostAsync(string operation, string body) =>
        host.Client.PostAsync($"/v1/identities/{operation}", new StringContent(body, Encoding.UTF8, "application/json"));
}
