using System.Text;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;

namespace TagService.Service.Tests.Http;

/// <summary>What the strict reader says about single bodies. The expected places and words are the contract in design form: RFC 9457 pointers.</summary>
public sealed class JsonBodyTests
{
    /// <summary>Body, problem type, pointer of the first error, word its detail must hold, word its accepted must hold.</summary>
    public static TheoryData<string, string, string, string, string> Refused => new()
    {
        // Not JSON (RFC 8259).
        { "", "malformed-body", "#", "empty", "object" },
        { "  \r\n\t", "malformed-body", "#", "empty", "object" },
        { "pump", "malformed-body", "#", "Line 1, column 1: unexpected pump", "JSON" },
        { "{\"reading\":{\"requiredRangeM\":NaN}}", "malformed-body", "#/reading/requiredRangeM", "column 30", "finite" },
        { "{\"reading\":{\"requiredRangeM\":-Infinity}}", "malformed-body", "#/reading/requiredRangeM", "no JSON number", "finite" },
        { "{\n \"category\": \"pump\",\n 'x': 1}", "malformed-body", "#", "Line 3, column 2", "\"" },
        { "{\"category\":\"pump\"", "malformed-body", "#", "ends before", "complete" },
        { "{\"category\":\"pump\",}", "malformed-body", "#", "comma", "RFC 8259" },
        { "{\"category\":\"pump\"} {}", "malformed-body", "#", "column 21", "RFC 8259" },
        { "{} // remark", "malformed-body", "#", "no comments", "comment" },
        { "{\"anyNumber\":01}", "malformed-body", "#/anyNumber", "column", "RFC 8259" },
        { "{\"category\":\"a\nb\"}", "malformed-body", "#/category", "control character", "RFC 8259" },

        // RFC 3339: a time without its offset is no point in time.
        { "{\"seenAt\":\"2026-11-05T14:30:00\"}", "invalid-fields", "#/seenAt", "does not read", "offset" },
        { "{\"seenAt\":\"2026-11-05\"}", "invalid-fields", "#/seenAt", "does not read", "offset" },

        // JSON, but no object.
        { "null", "invalid-fields", "#", "null", "object" },
        { "\"pump\"", "invalid-fields", "#", "text", "object" },
        { "[]", "invalid-fields", "#", "an array", "object" },
        { "17", "invalid-fields", "#", "a number", "object" },

        // Types.
        { "{\"reading\":{\"requiredRangeM\":\"3\"}}", "invalid-fields", "#/reading/requiredRangeM", "without quotes", "0.005 to 100 m" },
        { "{\"reading\":3}", "invalid-fields", "#/reading", "an object belongs", "requiredRangeM" },
        { "{\"reading\":{\"looks\":1.5}}", "invalid-fields", "#/reading/looks", "whole number", "1 to 100" },
        { "{\"reading\":{\"looks\":99999999999999999999}}", "invalid-fields", "#/reading/looks", "whole number", "1 to 100" },
        { "{\"environment\":{\"pressureWash\":\"yes\"}}", "invalid-fields", "#/environment/pressureWash", "true or false", "true or false" },
        { "{\"environment\":{\"setting\":3}}", "invalid-fields", "#/environment/setting", "a number where text", "cold-store" },
        { "{\"environment\":{\"setting\":\"cold-stor\"}}", "invalid-fields", "#/environment/setting", "perhaps cold-store", "cold-store" },
        { "{\"environment\":{\"ipRequired\":\"IP67\"}}", "invalid-fields", "#/environment/ipRequired", "an array belongs", "array" },
        { "{\"environment\":{\"ipRequired\":[\"IP67\",null]}}", "invalid-fields", "#/environment/ipRequired/1", "null", "text" },
        { "{\"environment\":{\"hazardousArea\":{}}}", "invalid-fields", "#/environment/hazardousArea/zone", "missing", "0, 1, 2, 20, 21, 22" },
        { "{\"environment\":{\"hazardousArea\":{\"zone\":\"3\"}}}", "invalid-fields", "#/environment/hazardousArea/zone", "none of its values", "20" },
        { "{\"environment\":{\"hazardousArea\":{\"zone\":null}}}", "invalid-fields", "#/environment/hazardousArea/zone", "null", "20" },
        { "{\"seenAt\":\"yesterday\"}", "invalid-fields", "#/seenAt", "does not read", "RFC 3339" },
        { "{\"attributes\":{\"colour\":7}}", "invalid-fields", "#/attributes/colour", "a number where text", "text" },
        { "{\"attributes\":{\"colour\":null}}", "invalid-fields", "#/attributes/colour", "null", "text" },
        { "{\"attributes\":{\"a/b~c d\":7}}", "invalid-fields", "#/attributes/a~1b~0c%20d", "a number", "text" },

        // Ranges.
        { "{\"reading\":{\"requiredRangeM\":1e999}}", "invalid-fields", "#/reading/requiredRangeM", "too large", "0.005 to 100 m" },
        { "{\"anyNumber\":1e999}", "invalid-fields", "#/anyNumber", "too large", "number" },
        { "{\"reading\":{\"requiredRangeM\":-3}}", "invalid-fields", "#/reading/requiredRangeM", "below", "0.005 to 100 m" },
        { "{\"environment\":{\"temperatureMaxC\":4000}}", "invalid-fields", "#/environment/temperatureMaxC", "above", "-200 to 400 °C" },
        { "{\"reading\":{\"eirpDbm\":61}}", "invalid-fields", "#/reading/eirpDbm", "above", "-30 to 60 dBm" },
        { "{\"service\":{\"currency\":\"euro\"}}", "invalid-fields", "#/service/currency", "none of its values", "[A-Z]{3}" },
        { "{\"observations\":[{\"leftYears\":1},{\"leftYears\":101}]}", "invalid-fields", "#/observations/1/leftYears", "above", "0 to 100 years" },
        { "{\"observations\":[{\"count\":1}]}", "invalid-fields", "#/observations/0/leftYears", "missing", "0 to 100 years" },
        { "{\"observations\":[{\"leftYears\":1},{\"leftYears\":1},{\"leftYears\":1},{\"leftYears\":1}]}", "invalid-fields", "#/observations", "4 items", "at most 3" },

        // Names.
        { "{\"category\":\"a\",\"category\":\"b\"}", "invalid-fields", "#/category", "second time", "once" },
        { "{\"own\":{\"a\":1,\"a\":2}}", "invalid-fields", "#/own/a", "second time", "once" },
        { "{\"reading\":{\"requiredRange\":3}}", "invalid-fields", "#/reading/requiredRange", "not a known name", "perhaps requiredRangeM" },
        { "{\"surface\":{\"materail\":\"steel\"}}", "invalid-fields", "#/surface/materail", "not a known name", "perhaps material" },
        { "{\"surface\":{\"colour\":\"red\"}}", "invalid-fields", "#/surface/colour", "not a known name", "material" },
        { "{\"requiredRangeM\":3}", "invalid-fields", "#/requiredRangeM", "wrong place", "/reading/requiredRangeM" },
        { "{\"surface\":{\"lengthMm\":3}}", "invalid-fields", "#/surface/lengthMm", "wrong place", "/mounting/lengthMm" },
        { "{\"surface\":{\"category\":\"x\"}}", "invalid-fields", "#/surface/category", "wrong place", "/category" },

        // Text that is no text.
        { "{\"category\":\"\\ud800\"}", "invalid-fields", "#/category", "surrogate", "Unicode" },
        { "{\"own\":[\"\\udc00\"]}", "invalid-fields", "#/own/0", "surrogate", "Unicode" },
        { "{\"\\ud800\":1}", "invalid-fields", "#", "surrogate", "Unicode" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void Read_WrongBody_SaysWhatWhereAndWhatWouldDo(string body, string type, string place, string detail, string accepted)
    {
        var result = JsonBody.Read<ProbeRecord>(Encoding.UTF8.GetBytes(body), JsonReadOptions.Default);

        Assert.False(result.IsRead);
        Assert.Equal(type, result.Problem!.Type.Name);
        var error = result.Problem.Errors![0];
        Assert.Equal(place, error.Pointer);
        Assert.Contains(detail, error.Detail, StringComparison.Ordinal);
        Assert.Contains(accepted, error.Accepted, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("\uFEFF{\"category\":\"pump\"}")] // RFC 8259, section 8.1: may be ignored
    [InlineData("{\"category\":\"Kreiselpumpe für Abwasser 泵 насос مضخة 🚰\"}")]
    [InlineData("{\"category\":\"\\ud83d\\ude80 \\u00fc\"}")]
    [InlineData("{\"reading\":null,\"surface\":{\"material\":null},\"assetId\":null}")]
    [InlineData("{\"environment\":{\"hazardousArea\":{\"zone\":\"2\",\"group\":null}}}")]
    [InlineData("{\"reading\":{\"requiredRangeM\":3e0,\"looks\":3}}")]
    [InlineData("{\"seenAt\":\"2026-11-05T14:30:00+01:00\"}")]
    [InlineData("{\"observations\":[{\"leftYears\":0}]}")]
    public void Read_ValidBody_IsRead(string body)
    {
        var result = JsonBody.Read<ProbeRecord>(Encoding.UTF8.GetBytes(body), JsonReadOptions.Default);

        Assert.Null(result.Problem);
        Assert.True(result.IsRead);
    }

    [Fact]
    public void Read_ManyMistakes_ListsAllAtOnce()
    {
        const string Body = """
            {"reading":{"requiredRangeM":-1,"readerKind":"phon","looks":"3"},
             "surface":{"thicknessMm":0},"mounting":{"widthM":2}}
            """;

        var problem = JsonBody.Read<ProbeRecord>(Encoding.UTF8.GetBytes(Body), JsonReadOptions.Default).Problem!;

        Assert.Equal(
            ["#/reading/requiredRangeM", "#/reading/readerKind", "#/reading/looks", "#/surface/thicknessMm", "#/mounting/widthM"],
            problem.Errors!.Select(e => e.Pointer));
        Assert.Equal(["-1", "phon", "\"3\"", "0", "2"], problem.Errors!.Select(e => e.Value));
    }

    [Fact]
    public void Read_RegistersOwnFields_AreWelcomeAtTheTopAndReturned()
    {
        var body = """{"category":"pump","ASSET_NO":"P-17","criticality":2}"""u8;

        var welcome = JsonBody.Read<ProbeRecord>(body, JsonReadOptions.Default);
        var strict = JsonBody.Read<ProbeRecord>(body, JsonReadOptions.Default with { RefuseOtherMembers = true });

        Assert.Equal(["ASSET_NO", "criticality"], welcome.OtherMembers.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["#/ASSET_NO", "#/criticality"], strict.Problem!.Errors!.Select(e => e.Pointer));
    }

    [Fact]
    public void Read_NameExceptedFromMisplacement_IsWelcome()
    {
        var options = JsonReadOptions.Default with { NotMisplaced = new HashSet<string> { "site" } };

        Assert.False(JsonBody.Read<ProbeRecord>("""{"site":"Works 2"}"""u8, JsonReadOptions.Default).IsRead);
        Assert.True(JsonBody.Read<ProbeRecord>("""{"site":"Works 2"}"""u8, options).IsRead);
    }

    [Fact]
    public void Read_TenThousandDeep_NamesTheLimit()
    {
        var body = Encoding.ASCII.GetBytes(string.Concat(Enumerable.Repeat("{\"a\":", 10_000)));

        var problem = JsonBody.Read<ProbeRecord>(body, JsonReadOptions.Default).Problem!;

        Assert.Equal(ProblemTypes.MalformedBody, problem.Type);
        Assert.Contains("32 levels", problem.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_InvalidUtf8_NamesTheByte()
    {
        byte[] body = [.. "{\"category\":\""u8, 0xC3, 0x28, .. "\"}"u8];

        var problem = JsonBody.Read<ProbeRecord>(body, JsonReadOptions.Default).Problem!;

        Assert.Equal("0xC3", problem.Errors![0].Value);
        Assert.Contains("column 14", problem.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_LongValue_IsCutInTheAnswer()
    {
        var body = Encoding.UTF8.GetBytes($"{{\"surface\":{{\"material\":\"{new string('é', 100_000)}\"}}}}");

        var error = JsonBody.Read<ProbeRecord>(body, JsonReadOptions.Default).Problem!.Errors![0];

        Assert.Equal(80, error.Value!.Length);
        Assert.Contains("100000 characters", error.Detail, StringComparison.Ordinal);
        Assert.Contains("200", error.Accepted, StringComparison.Ordinal);
    }
}
