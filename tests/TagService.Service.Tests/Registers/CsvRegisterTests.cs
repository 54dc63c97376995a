using System.Text;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Service.Tests.LocalDatabase;
using static TagService.Service.Tests.Registers.RegisterTestHost;

namespace TagService.Service.Tests.Registers;

public sealed class CsvRegisterTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly RegisterTestHost _host;

    public CsvRegisterTests() => _host = new(("Registers:Files:Folders:exports", _folder.Path));

    // RFC 4180, section 2, definitions 1 to 7; the names of the columns are configured where the example has no header.
    [Theory]
    [InlineData("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa|bbb|ccc;zzz|yyy|xxx")]
    [InlineData("aaa,bbb,ccc\r\nzzz,yyy,xxx", "aaa|bbb|ccc;zzz|yyy|xxx")]
    [InlineData("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|bbb|ccc;zzz|yyy|xxx")]
    [InlineData("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|b\r\nbb|ccc;zzz|yyy|xxx")]
    [InlineData("\"aaa\",\"b\"\"bb\",\"ccc\"", "aaa|b\"bb|ccc")]
    public async Task ReadAsync_ExampleOfRfc4180_IsRead(string text, string expected)
    {
        Write("a.csv", text);

        var pages = await AllAsync(_host.Readers.Open(Source() with { Separator = ',', ColumnNames = ["1", "2", "3"] }));

        Assert.Equal(expected, string.Join(';', pages.SelectMany(p => p.Rows).Select(r => string.Join('|', r.Row.Values.Select(v => v.Text)))));
        Assert.True(pages[^1].End!.IsCompleteList);
    }

    // RFC 4180, section 2, definition 3: the header line.
    [Fact]
    public async Task ReadAsync_Header_NamesTheValues()
    {
        Write("a.csv", "field_name,field_name, \r\naaa,bbb,ccc\r\n");

        var page = (await AllAsync(_host.Readers.Open(Source())))[0];

        Assert.Equal(["field_name", "field_name (2)", "column 3"], page.Rows[0].Row.Columns.Names);
        Assert.Contains(page.Notices, n => n.Code == "column-twice");
    }

    [Fact]
    public async Task ReadAsync_RowsThatAreNone_AreNamedByTheirLineAndTheRestGoesOn()
    {
        Write("a.csv", "id,name\r\n1,\"two\r\nlines\"\r\n2\r\n\r\n3,a,b\r\n4,\"x\" y\r\n5,3/4\" valve\r\n6,fine\r\n7,\"open\r\n8,lost\r\n");

        var pages = await AllAsync(_host.Readers.Open(Source()));

        Assert.Equal(["1", "5", "6"], Ids(pages, "id"));
        Assert.Equal("3/4\" valve", pages[0].Rows[1].Row.Find("name")!.Value.Text);
        var unreadable = pages.SelectMany(p => p.Unreadable).ToArray();
        Assert.Equal(["a.csv, line 4", "a.csv, line 6", "a.csv, line 7", "a.csv, line 10"], unreadable.Select(u => u.Place));
        Assert.Equal(["2", "3,a,b", "4,\"x\" y", "7,\"open\r\n8,lost"], unreadable.Select(u => u.OriginalText));
        Assert.Contains(pages[0].Notices, n => n.Code == "quotes-within-values");
        Assert.False(pages[^1].End!.IsCompleteList);
    }

    // Code points: Unicode 15; bytes of ü and € in Windows-1252: FC and 80 (IANA registration, from memory).
    [Theory]
    [InlineData("EF BB BF", "C3 BC E2 82 AC", null, 1)]
    [InlineData("", "C3 BC E2 82 AC", null, 1)]
    [InlineData("", "FC 80", null, 1)]
    [InlineData("", "FC 80", "windows-1252", 1)]
    [InlineData("FF FE", "FC 00 AC 20", null, 2)]
    [InlineData("FE FF", "00 FC 20 AC", null, -2)]
    [InlineData("", "FC 00 AC 20", null, 2)]
    [InlineData("", "00 FC 20 AC", "utf-16be", -2)]
    public async Task ReadAsync_Encoding_IsFoundOutOrConfigured(string mark, string special, string? configured, int width)
    {
        byte[] Ascii(string text) => width switch { 2 => Encoding.Unicode.GetBytes(text), -2 => Encoding.BigEndianUnicode.GetBytes(text), _ => Encoding.ASCII.GetBytes(text) };
        byte[] Hex(string hex) => Convert.FromHexString(hex.Replace(" ", "", StringComparison.Ordinal));
        File.WriteAllBytes(_folder.Below("a.csv"), [.. Hex(mark), .. Ascii("id;name\r\n1;M"), .. Hex(special), .. Ascii("ller and some more letters\r\n")]);

        var pages = await AllAsync(_host.Readers.Open(Source() with { Encoding = configured }));

        Assert.Equal("M\u00FC\u20ACller and some more letters", pages[0].Rows[0].Row.Find("name")!.Value.Text);
        Assert.Equal(configured is null && mark.Length == 0, pages[0].Notices.Any(n => n.Code == "encoding-detected"));
    }

    [Fact]
    public async Task ReadAsync_BytesThatAreNotOfTheEncoding_RefuseTheirRow()
    {
        File.WriteAllBytes(_folder.Below("a.csv"), [.. "id,name\r\n1,M"u8, 0xFC, .. "ller\r\n2,fine\r\n"u8]);

        var pages = await AllAsync(_host.Readers.Open(Source() with { Encoding = "utf-8" }));

        Assert.Equal(["2"], Ids(pages, "id"));
        Assert.Contains("utf-8", Assert.Single(pages[0].Unreadable).Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("id;name;mm\n1;a, b;2,5\n2;c;3,5\n", ';', 1)]
    [InlineData("id,name,mm\n1,\"a; b\",2.5\n2,c,3.5\n", ',', 1)]
    [InlineData("id\tname\n1\ta, b\n2\tc\n", '\t', 1)]
    [InlineData("id|name\n1|a\n2|b|c\n3|d\n", '|', 0.67)] // two of three: the last row can be cut and does not count
    [InlineData("id\n1\n2\n", ',', 0)]
    public void Detect_SeparatorOfAFile_IsFoundWithItsConfidence(string text, char separator, double confidence)
    {
        var found = SeparatorDetection.Detect(text);

        Assert.Equal(separator, found.Separator);
        Assert.Equal(confidence, found.Confidence, 2);
    }

    [Fact]
    public async Task ReadAsync_StoppedAndResumed_GivesEveryRowOnceInOrder()
    {
        Write("a.csv", "id,name\n" + string.Concat(Enumerable.Range(0, 3500).Select(i => i % 700 == 3 ? $"{i}\n" : $"{i},\"n\n{i}\"\n")));
        var pages = new List<RegisterPage>();
        RegisterPosition? at = null;
        while (pages.LastOrDefault()?.End is null)
        {
            await foreach (var page in _host.Readers.Open(Source()).ReadAsync(at))
            {
                pages.Add(page);
                at = page.After;
                break;
            }
        }

        Assert.Equal(Enumerable.Range(0, 3500).Where(i => i % 700 != 3).Select(i => $"{i}"), Ids(pages, "id"));
        Assert.Equal(5, pages.Sum(p => p.Unreadable.Count));
        Assert.Equal((3495L, 5L), (pages[^1].End!.Rows, pages[^1].End!.Unreadable));
        Assert.True((await AllAsync(_host.Readers.Open(Source()), at))[^1].End!.NothingNew);
    }

    [Fact]
    public async Task ReadAsync_FileWrittenAnewMeanwhile_IsReadFromItsBeginning()
    {
        Write("a.csv", "id\n" + string.Join('\n', Enumerable.Range(0, 1500)));
        RegisterPosition? at = null;
        await foreach (var page in _host.Readers.Open(Source()).ReadAsync(null))
        {
            at = page.After;
            break;
        }

        Write("a.csv", "id\nnew\n");
        var pages = await AllAsync(_host.Readers.Open(Source()), at);

        Assert.Equal(["new"], Ids(pages, "id"));
        Assert.Contains(pages[0].Notices, n => n.Code == "file-changed");
    }

    [Fact]
    public async Task ReadAsync_FileChangedUnderTheReader_DoesNotEndThePass()
    {
        Write("a.csv", "id\n" + string.Join('\n', Enumerable.Range(0, 1500)));

        var failure = await Assert.ThrowsAsync<RegisterReadException>(async () =>
        {
            await foreach (var page in _host.Readers.Open(Source()).ReadAsync(null))
            {
                Assert.Null(page.End);
                await File.AppendAllTextAsync(_folder.Below("a.csv"), "\nmore");
            }
        });

        Assert.Equal(RegisterFault.Changed, failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_QuoteThatNeverCloses_DoesNotFillTheMemory()
    {
        Write("a.csv", "id,name\n1,\"" + new string('x', 5_000_000));

        var (_, failure) = await FailAsync(_host.Readers.Open(Source() with { MostRowCharacters = 10_000 }));

        Assert.Equal(RegisterFault.TooLarge, failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_KeyThatComesAgain_IsMarked()
    {
        Write("a.csv", "id,name\n1,a\n1,a\n1,b\n");

        var pages = await AllAsync(_host.Readers.Open(Source() with { KeyColumn = "ID" }));

        Assert.Equal([RowRepeat.None, RowRepeat.Same, RowRepeat.Changed], pages[0].Rows.Select(r => r.Repeat));
        Assert.False(pages[0].End!.IsCompleteList);
    }

    [Fact]
    public async Task ReadAsync_Row_MapsToAnAsset()
    {
        Write("a.csv", "Inventarnummer;Wandstärke [mm];Bezeichnung\nP-1;2,5;Kreiselpumpe\n");
        var mapping = Assert.IsType<MappingCompilation.Usable>(new RegisterMapping
        {
            Rows = [new() { Target = "/assetId", Source = "Inventarnummer" }, new() { Target = "/surface/thicknessMm", Source = "Wandstärke [mm]" }],
        }.Compile()).Mapper;

        var row = (await AllAsync(_host.Readers.Open(Source())))[0].Rows[0];
        var record = Assert.IsType<MappedAsset>(mapping.Map(row.Row, new(2026, 1, 1))).ApplyTo(null);

        Assert.Equal(("P-1", 2.5, "Kreiselpumpe"), (record.AssetId, record.Surface!.ThicknessMm, record.Attributes["Bezeichnung"]));
    }

    public void Dispose()
    {
        _host.Dispose();
        _folder.Dispose();
    }

    private static CsvRegisterOptions Source() => new() { Folder = "exports", Pattern = "*.csv" };

    private void Write(string name, string text) => File.WriteAllText(_folder.Below(name), text, new UTF8Encoding(false));
}
