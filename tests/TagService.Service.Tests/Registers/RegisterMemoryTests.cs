using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Http;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;
using TagService.Service.Tests.LocalDatabase;
using Xunit.Abstractions;

namespace TagService.Service.Tests.Registers;

/// <summary>Memory does not grow with the source. What stays alive is measured after a collection, every hundred pages.</summary>
[Collection(MeasuredAlone.Name)]
public sealed class RegisterMemoryTests(ITestOutputHelper output)
{
    private const int Million = 1_000_000;
    private const long Mebibyte = 1024 * 1024;

    [Fact]
    public async Task CsvRegisterReader_MillionRows_StaysWithinBounds()
    {
        using var folder = new TemporaryFolder();
        await using (var writer = new StreamWriter(folder.Below("a.csv"), false, new UTF8Encoding(false)))
        {
            await writer.WriteLineAsync("id;name;material;length;width;height;temperature;remark");
            for (var i = 0; i < Million; i++)
                await writer.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"A-{i};\"pump\n{i}\";steel;{i % 500};{i % 90};{i % 7}.5;{i % 80} °C;invented row of a test"));
        }

        using var host = new RegisterTestHost(("Registers:Files:Folders:exports", folder.Path));
        await MeasureAsync(host.Readers.Open(new CsvRegisterOptions { Folder = "exports", Pattern = "*.csv" }), Million, 96, new FileInfo(folder.Below("a.csv")).Length);
    }

    [Fact]
    public async Task SpreadsheetRegisterReader_HundredThousandRows_StaysWithinBounds()
    {
        const int Rows = 100_000;
        using var folder = new TemporaryFolder();
        await using (var stream = File.Create(folder.Below("a.xlsx")))
        {
            TestWorkbook.Write(stream, w =>
            {
                var parts = TestWorkbook.Sheet("|").Split('|');
                w.Write(parts[0]);
                w.Write("<row r=\"1\"><c t=\"s\"><v>0</v></c><c t=\"s\"><v>1</v></c><c t=\"s\"><v>2</v></c></row>");
                for (var i = 0; i < Rows; i++)
                    w.Write(string.Create(CultureInfo.InvariantCulture, $"<row><c t=\"inlineStr\"><is><t>A-{i}</t></is></c><c t=\"s\"><v>3</v></c><c s=\"1\"><v>{40_000 + (i % 5000)}</v></c></row>"));
                w.Write(parts[1]);
            }, ["<t>id</t>", "<t>name</t>", "<t>since</t>", "<t>pump</t>"]);
        }

        using var host = new RegisterTestHost(("Registers:Files:Folders:exports", folder.Path));
        await MeasureAsync(host.Readers.Open(new SpreadsheetRegisterOptions { Folder = "exports", Pattern = "*.xlsx" }), Rows, 96, new FileInfo(folder.Below("a.xlsx")).Length);
    }

    [Fact]
    public async Task HttpRegisterReader_OneHugePage_StaysWithinBounds()
    {
        const int Rows = 500_000;
        await using var register = await FaultyRegister.StartAsync(async (context, _) =>
        {
            context.Response.ContentType = "application/json";
            await context.Response.WriteAsync("{\"items\":[");
            var portion = new StringBuilder();
            for (var i = 0; i < Rows; i++)
            {
                portion.Append(i == 0 ? "" : ",").Append(FaultyRegister.Row(i));
                if (i % 500 != 499)
                    continue;
                await context.Response.WriteAsync(portion.ToString());
                portion.Clear();
            }

            await context.Response.WriteAsync("]}");
        });
        using var host = new RegisterTestHost();
        await MeasureAsync(host.Readers.Open(HttpPagingTests.Source(register, HttpPaging.None, LastPage.Empty)), Rows, 96, (long)Rows * FaultyRegister.Row(Rows).Length);
    }

    private async Task MeasureAsync(IRegisterReader reader, int rows, int mostMebibytes, long sourceBytes)
    {
        var before = GC.GetTotalMemory(forceFullCollection: true);
        long most = 0, read = 0;
        var pages = 0;
        await foreach (var page in reader.ReadAsync(null))
        {
            read += page.Rows.Count;
            if (++pages % 100 == 0)
                most = Math.Max(most, GC.GetTotalMemory(forceFullCollection: true) - before);
        }

        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{read} rows, {sourceBytes / Mebibyte} MiB of source: at most {most / (double)Mebibyte:0.0} MiB more alive than before"));
        Assert.Equal(rows, read);
        // Other tests run beside this one in the same process, hence generously.
        Assert.InRange(most, 0, mostMebibytes * Mebibyte);
    }
}
