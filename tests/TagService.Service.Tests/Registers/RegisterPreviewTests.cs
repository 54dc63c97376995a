using System.Net;
using System.Text.Json.Nodes;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Http;
using TagService.Intake.Registers.Preview;
using TagService.Service.Tests.Database;
using TagService.Service.Tests.Http;
using static TagService.Service.Tests.Registers.FaultyRegister;

namespace TagService.Service.Tests.Registers;

/// <summary>Dry runs and suggested mappings. All rows are invented.</summary>
[Collection(TestDatabase.Collection)]
public sealed class RegisterPreviewTests(RegisterApiHost host) : IClassFixture<RegisterApiHost>
{
    private const string Root = "/v1/register-sources";

    private const string Mapping = """
        {"rows":[{"target":"/assetId","source":"id"},{"target":"/description","source":"name"},{"target":"/surface/thicknessMm","source":"wall"},
         {"target":"/location","source":"place"},{"target":"/tag","source":"tag","whenNotUnderstood":"refuse-row"},{"target":"/surface/material","source":"casing"},{"target":"/contents","source":"filling"}]}
        """;

    [Fact]
    public async Task Preview_HttpSourceWithPages_SaysWhatWouldChangeAndWritesNothing()
    {
        await using var register = await StartAsync((context, _) =>
            WriteAsync(context, context.Request.Query["c"] == "2" ? Page([Row(2), Row(3)]) : Page([Row(0), Row(1)], "2")));
        await host.Client.GivenAsync(($"{Root}/paged", $$$$$$"""
            {"http":{"address":"{{{{{{register.Address}}}}}}","rowsPointer":"/items","paging":"cursor","cursorPointer":"/next","cursorParameter":"c"},
             "mapping":{"rows":[{"target":"/assetId","source":"/id"},{"target":"/description","source":"/name"},{"target":"/surface/thicknessMm","source":"/wall/mm"},{"target":"/retired","source":"/retired"}]}}
            """));
        await host.Client.GivenAsync(
            ("/v1/assets/A-1", """{"description":"pump 1","surface":{"thicknessMm":1.5}}"""),
            ("/v1/assets/A-2", """{"description":"an old pump","surface":{"thicknessMm":2.5},"retired":{"reason":"sold"}}"""));
        var before = await host.SqlAsync("SELECT (SELECT count(*) FROM assets) || ' ' || (SELECT count(*) FROM changes) || ' ' || (SELECT count(*) FROM register_rows)");

        using var answer = await host.Client.SendJsonAsync($"{Root}/paged/preview", "{}");

        var preview = await answer.JsonAsync();
        Assert.True(answer.IsSuccessStatusCode, preview.ToJsonString());
        Assert.Equal(["created", "unchanged", "changed", "created"], preview["rows"]!.AsArray().Select(r => (string?)r!["outcome"]));
        Assert.Equal((4, true, 2, 1, 1), ((int)preview["rowsRead"]!, (bool)preview["isWhole"]!, (int)preview["created"]!, (int)preview["changed"]!, (int)preview["unchanged"]!));
        Assert.Equal(
            ["/description: an old pump -> pump 2", "/retired: true -> "],
            preview["rows"]![2]!["changes"]!.AsArray().Select(c => $"{c!["field"]}: {c["before"]} -> {c["after"]}"));
        Assert.Equal(before, await host.SqlAsync("SELECT (SELECT count(*) FROM assets) || ' ' || (SELECT count(*) FROM changes) || ' ' || (SELECT count(*) FROM register_rows)"));

        using var few = await host.Client.SendJsonAsync($"{Root}/paged/preview", """{"maxRows":3}""");
        var first = await few.JsonAsync();
        Assert.Equal((3, false), ((int)first["rowsRead"]!, (bool)first["isWhole"]!));
    }

    [Fact]
    public async Task Preview_CsvFile_TalliesValuesRefusalsAndMissingColumns()
    {
        await File.WriteAllTextAsync(Path.Combine(host.Folder, "pumps.csv"), """
            id;name;wall;place;tag;casing
            C-1;pump;8 mm;Hall;;Kryptonit
            C-2;pump;thick;Hall;;Kryptonit
            C-1;pump again;8;Hall;;steel
            C-3;too;many;values;in;this;row
            """);

        using var answer = await host.Client.SendJsonAsync($"{Root}/preview", $$$$$$"""{"source":{"csv":{"folder":"inbox","pattern":"pumps.csv"},"mapping":{{{{{{Mapping}}}}}}}}""");

        var preview = await answer.JsonAsync();
        Assert.True(answer.IsSuccessStatusCode, preview.ToJsonString());
        Assert.Equal(["created", "refused", "refused", "refused"], preview["rows"]!.AsArray().Select(r => (string?)r!["outcome"]));
        Assert.Equal("pumps.csv, line 3", (string?)preview["rows"]![1]!["place"]);
        Assert.Equal("C-2;pump;thick;Hall;;Kryptonit", (string?)preview["rows"]![1]!["originalText"]);
        Assert.Equal(["filling"], preview["missingSources"]!.AsArray().Select(s => (string?)s));
        Assert.Contains(preview["values"]!.AsArray(), v => (string?)v!["kind"] == "not-recognised" && (string?)v["value"] == "Kryptonit" && (long)v["count"]! == 2);
        Assert.Contains(preview["values"]!.AsArray(), v => (string?)v!["kind"] == "refuses" && (string?)v["value"] == "thick" && (string?)v["field"] == "/surface/thicknessMm");
    }

    [Fact]
    public async Task Preview_Spreadsheet_IsReadByTheRealReader()
    {
        var sheet = TestWorkbook.Sheet(
            """<row r="1"><c r="A1" t="inlineStr"><is><t>id</t></is></c><c r="B1" t="inlineStr"><is><t>wall</t></is></c></row><row r="2"><c r="A2" t="inlineStr"><is><t>X-1</t></is></c><c r="B2"><v>7.5</v></c></row>""");
        await File.WriteAllBytesAsync(Path.Combine(host.Folder, "sheet.xlsx"), TestWorkbook.Of(sheet));

        using var answer = await host.Client.SendJsonAsync(
            $"{Root}/preview",
            """{"source":{"spreadsheet":{"folder":"inbox","pattern":"*.xlsx"},"mapping":{"rows":[{"target":"/assetId","source":"id"},{"target":"/surface/thicknessMm","source":"wall"}]}}}""");

        var preview = await answer.JsonAsync();
        Assert.True(answer.IsSuccessStatusCode, preview.ToJsonString());
        Assert.Equal(["/assetId:X-1", "/surface/thicknessMm:7.5"], preview["rows"]![0]!["changes"]!.AsArray().Select(c => $"{c!["field"]}:{c["after"]}"));
    }

    [Theory]
    [InlineData(401, "credentials-refused")]
    [InlineData(404, "not-found")]
    [InlineData(500, "source-failed")]
    [InlineData(200, "no-rows")]
    public async Task Preview_SourceThatCannotBeRead_IsRefusedWithItsFault(int status, string code)
    {
        await using var register = await StartAsync((context, _) =>
        {
            context.Response.StatusCode = status;
            return WriteAsync(context, "{}");
        });

        using var answer = await host.Client.SendJsonAsync(
            $"{Root}/preview", $$$$$$"""{"source":{"http":{"address":"{{{{{{register.Address}}}}}}","rowsPointer":"/items"},"mapping":{"rows":[{"target":"/assetId","source":"id"}]}}}""");

        var problem = await HostileRequestTests.Problem(answer, HttpStatusCode.UnprocessableEntity, "register-unreadable");
        Assert.Equal(code, problem.Code);
    }

    [Fact]
    public async Task Sample_SourceThatDoesNotAnswer_EndsAfterTheTimeAllowedWithItsFault()
    {
        await using var register = await StartAsync((context, _) => Task.Delay(Timeout.Infinite, context.RequestAborted));
        using var readers = new RegisterTestHost();

        var sample = await RegisterSample.ReadAsync(
            readers.Readers.Open(new HttpRegisterOptions { Address = register.Address }), 10, TimeSpan.FromMilliseconds(300), TimeProvider.System, default);

        Assert.Equal(RegisterFault.TimedOut, sample.Failure!.Fault);
        Assert.Empty(sample.Rows);
    }

    [Fact]
    public async Task Preview_SourceThatBreaksOff_ShowsWhatWasReadAndWhy()
    {
        await using var register = await StartAsync((context, n) =>
        {
            if (context.Request.Query["c"] != "2")
                return WriteAsync(context, Page([Row(70)], "2"));
            context.Response.StatusCode = 403;
            return Task.CompletedTask;
        });

        using var answer = await host.Client.SendJsonAsync($"{Root}/preview", $$$$$$"""
            {"source":{"http":{"address":"{{{{{{register.Address}}}}}}","rowsPointer":"/items","paging":"cursor","cursorPointer":"/next","cursorParameter":"c"},"mapping":{"rows":[{"target":"/assetId","source":"id"}]}}}
            """);

        var preview = await answer.JsonAsync();
        Assert.Equal((1, "credentials-refused"), ((int)preview["rowsRead"]!, (string?)preview["failure"]!["code"]));
    }

    [Theory]
    [InlineData("""{"source":{"mapping":MAPPING},"rows":[{"id":"a\u0000b"},{"id":3},[1],null,"x",{"id":{"deep":1}}]}""", "refused created refused refused refused refused")]
    [InlineData("""{"source":{"mapping":MAPPING},"csvText":"id\n=1+1\n"}""", "created")]
    public async Task Preview_RowsInTheBody_NeedNoRegister(string body, string outcomes)
    {
        using var answer = await host.Client.SendJsonAsync($"{Root}/preview", body.Replace("MAPPING", """{"rows":[{"target":"/assetId","source":"id"}]}""", StringComparison.Ordinal));

        var preview = await answer.JsonAsync();
        Assert.True(answer.IsSuccessStatusCode, preview.ToJsonString());
        Assert.Equal(
            outcomes.Split(' ').Order(), preview["rows"]!.AsArray().Select(r => (string?)r!["outcome"]).Order());
    }

    [Fact]
    public async Task Suggest_CsvText_GivesAMappingThatCanBePut()
    {
        const string Csv = "Asset no;Description;Material;Wall thickness [mm];Location;EPC\nP-1;pump;steel;8,5;Hall;3476451FD40000000000162E\nP-2;fan;cast iron;6;Hall;3476451FD40000000000162F\n";

        using var answer = await host.Client.SendJsonAsync($"{Root}/suggest-mapping", new JsonObject { ["csvText"] = Csv }.ToJsonString());

        var suggested = await answer.JsonAsync();
        Assert.True(answer.IsSuccessStatusCode, suggested.ToJsonString());
        Assert.Equal(2, (int)suggested["rowsRead"]!);
        Assert.Equal(6, suggested["columns"]!.AsArray().Count);
        Assert.All(suggested["columns"]!.AsArray(), c => Assert.NotEmpty(c!["reasons"]!.AsArray()));
        var targets = suggested["mapping"]!["rows"]!.AsArray().ToDictionary(r => (string)r!["target"]!, r => (string?)r!["source"]);
        Assert.Equal(("Asset no", "Wall thickness [mm]", "EPC"), (targets["/assetId"], targets["/surface/thicknessMm"], targets["/tag"]));
        await host.Client.GivenAsync(($"{Root}/suggested", $$$$$$"""{"csv":{"folder":"inbox","pattern":"x.csv"},"mapping":{{{{{{suggested["mapping"]!.ToJsonString()}}}}}}}"""));
    }

    [Theory]
    [InlineData("{}", 400)]
    [InlineData("""{"rows":[{}],"csvText":"a"}""", 422)]
    [InlineData("""{"source":{"http":{"address":"https://register.example/"}},"rows":[{}]}""", 422)]
    [InlineData("""{"source":{"csv":{"folder":"none","pattern":"*"}}}""", 400)]
    [InlineData("""{"csvText":""}""", 400)]
    [InlineData("""{"rows":[]}""", 200)]
    [InlineData("""{"rows":[{"\u0000":"\u0000"},{"a":1e400}]}""", 200)]
    public async Task Suggest_OddSamples_AreAnsweredOrRefused(string body, int status)
    {
        using var answer = await host.Client.SendJsonAsync($"{Root}/suggest-mapping", body);
        Assert.True((HttpStatusCode)status == answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }
}
