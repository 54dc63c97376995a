using System.Text;
using CsCheck;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;

namespace TagService.Service.Tests.Registers;

/// <summary>Whatever a source holds: rows, rows that could not be read, or a named failure; nothing else gets out.</summary>
public sealed class RegisterFuzzTests
{
    [Fact]
    public void CsvTable_AnyBytes_GivesRowsOrANamedFailure()
    {
        var pieces = new[] { "a", "1", ",", ";", "\t", "|", "\"", "\"\"", "\r", "\n", "\r\n", " ", "é", "€", "\0", "\uFEFF", "\uFFFD" };
        var text = Gen.Int[0, pieces.Length - 1].Select(i => pieces[i]).Array[0, 60].Select(string.Concat);
        var bytes = Gen.OneOf(text.Select(Encoding.UTF8.GetBytes), text.Select(Encoding.Unicode.GetBytes), Gen.Byte.Array[0, 80]);
        Gen.Select(bytes, Gen.Bool.Select(known => known ? ';' : (char?)null)).Sample((content, separator) =>
        {
            try
            {
                using var table = new CsvTable(new MemoryStream(content), new() { Folder = "f", Pattern = "p", Separator = separator, MostRowCharacters = 100 });
                while (table.Read() is { } row)
                {
                    Assert.True(row.Values is null == row.Reason is not null);
                    Assert.True(row.Values is null || row.Values.Count == table.Columns.Names.Count);
                    Assert.DoesNotContain('\0', row.Text);
                }
            }
            catch (RegisterReadException)
            {
            }
        });
    }

    [Fact]
    public void SpreadsheetTable_DamagedFile_GivesRowsOrANamedFailure()
    {
        var sound = TestWorkbook.Of(TestWorkbook.Sheet("<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>id</t></is></c></row><row r=\"2\"><c r=\"A2\"><v>1</v></c></row>"));
        Gen.Select(Gen.Int[0, sound.Length - 1], Gen.Byte, Gen.Int[0, sound.Length]).Sample((at, value, length) =>
        {
            var damaged = (byte[])sound.Clone();
            damaged[at] = value;
            ReadSheet(damaged);
            ReadSheet(sound[..length]);
        }, iter: 300);
    }

    [Fact]
    public void SpreadsheetTable_AnyCellXml_GivesRowsOrANamedFailure()
    {
        var pieces = new[]
        {
            "<c>", "<c r=\"B1\">", "<c t=\"s\">", "<c t=\"e\">", "<c t=\"d\">", "<c s=\"9\">", "</c>", "<v>", "</v>", "<v/>", "<f/>", "<f>1+1</f>", "1", "1e999", "x",
            "<row>", "<row r=\"7\">", "</row>", "<is><t>y</t></is>", "<mergeCell ref=\"A1:ZZ9\"/>", "<mergeCell ref=\"?\"/>",
        };
        Gen.Int[0, pieces.Length - 1].Select(i => pieces[i]).Array[0, 25].Sample(p => ReadSheet(TestWorkbook.Of(TestWorkbook.Sheet(string.Concat(p)))), iter: 500);
    }

    [Fact]
    public async Task HttpRegisterReader_MutatedPages_GivesRowsOrANamedFailure()
    {
        var body = Array.Empty<byte>();
        await using var register = await FaultyRegister.StartAsync(async (context, _) =>
        {
            context.Response.ContentType = "application/json";
            await context.Response.Body.WriteAsync(body);
        });
        using var host = new RegisterTestHost(("Registers:Http:Retries", "0"));
        var reader = host.Readers.Open(HttpPagingTests.Source(register, HttpPaging.None, LastPage.Empty) with { MostRowBytes = 200 });
        var sound = Encoding.UTF8.GetBytes(FaultyRegister.Page([FaultyRegister.Row(0), "{\"id\":\"é\",\"list\":[1,{\"a\":[2]}]}", FaultyRegister.Row(1)]));
        var gen = Gen.Select(Gen.Int[0, sound.Length - 1], Gen.OneOf(Gen.Byte, Gen.Int[0, 7].Select(i => (byte)"{}[],:\"\\"[i])), Gen.Int[1, sound.Length], Gen.Bool)
            .Select((at, value, length, cuts) =>
            {
                var mutated = (byte[])sound.Clone();
                mutated[at] = value;
                return cuts ? mutated[..length] : mutated;
            });
        // One at a time: the server answers what is set last.
        await gen.SampleAsync(
            async mutated =>
            {
                body = mutated;
                try
                {
                    await RegisterTestHost.AllAsync(reader);
                }
                catch (RegisterReadException)
                {
                }
            },
            iter: 300,
            threads: 1);
    }

    private static void ReadSheet(byte[] content)
    {
        try
        {
            using var table = SpreadsheetTable.Open(new MemoryStream(content), new() { Folder = "f", Pattern = "p" });
            while (table.Read() is { } row)
                Assert.True(row.Values is null || row.Values.Count == table.Columns.Names.Count);
        }
        catch (RegisterReadException)
        {
        }
    }
}
