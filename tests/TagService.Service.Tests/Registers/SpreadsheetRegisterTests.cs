using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;
using TagService.Service.Tests.LocalDatabase;
using static TagService.Service.Tests.Registers.RegisterTestHost;

namespace TagService.Service.Tests.Registers;

public sealed class SpreadsheetRegisterTests : IDisposable
{
    private const string Header = "<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>id</t></is></c><c r=\"B1\" t=\"inlineStr\"><is><t>value</t></is></c></row>";

    private readonly TemporaryFolder _folder = new();
    private readonly RegisterTestHost _host;

    public SpreadsheetRegisterTests() => _host = new(("Registers:Files:Folders:exports", _folder.Path));

    // Cell types: ECMA-376 part 1, 18.18.11. Serial 45658 is 2025-01-01 and 61 is 1900-03-01 in the 1900 system, 0 is 1904-01-01 in the
    // 1904 system (18.17.4.1; 45658 = days from 1899-12-30, by "date -d 2025-01-01 +%s" / 86400 + 25569, GNU coreutils).
    [Theory]
    [InlineData("<c r=\"B2\"><v>25.399999999999999</v></c>", RegisterValueKind.Number, "25.4")]
    [InlineData("<c r=\"B2\" t=\"n\"><v>4711</v></c>", RegisterValueKind.Number, "4711")]
    [InlineData("<c r=\"B2\" t=\"b\"><v>1</v></c>", RegisterValueKind.YesNo, "true")]
    [InlineData("<c r=\"B2\" t=\"str\"><f>A2&amp;\"x\"</f><v>7x</v></c>", RegisterValueKind.Text, "7x")]
    [InlineData("<c r=\"B2\"><f>1+1</f><v>2</v></c>", RegisterValueKind.Number, "2")]
    [InlineData("<c r=\"B2\"><f>1+1</f></c>", RegisterValueKind.Error, "a formula without a stored result")]
    [InlineData("<c r=\"B2\" t=\"e\"><f>1/0</f><v>#DIV/0!</v></c>", RegisterValueKind.Error, "#DIV/0!")]
    [InlineData("<c r=\"B2\" s=\"1\"><v>45658</v></c>", RegisterValueKind.Date, "2025-01-01")]
    [InlineData("<c r=\"B2\" s=\"2\"><v>45658.25</v></c>", RegisterValueKind.Date, "2025-01-01T06:00:00")]
    [InlineData("<c r=\"B2\" s=\"1\"><v>61</v></c>", RegisterValueKind.Date, "1900-03-01")]
    [InlineData("<c r=\"B2\" s=\"3\"><v>45658</v></c>", RegisterValueKind.Number, "45658")]
    [InlineData("<c r=\"B2\" t=\"d\"><v>2025-01-01T00:00:00</v></c>", RegisterValueKind.Date, "2025-01-01")]
    [InlineData("<c r=\"B2\" t=\"s\"><v>0</v></c>", RegisterValueKind.Text, "shared")]
    [InlineData("<c r=\"B2\" t=\"s\"><v>1</v></c>", RegisterValueKind.Text, "rich text")]
    [InlineData("<c r=\"B2\" t=\"s\"><v>9</v></c>", RegisterValueKind.Error, "a shared text that is not there")]
    [InlineData("<c r=\"B2\" t=\"inlineStr\"><is><t>a_x000D_b</t></is></c>", RegisterValueKind.Text, "a\rb")]
    [InlineData("<c r=\"B2\" s=\"1\"/>", RegisterValueKind.Empty, "")]
    public async Task ReadAsync_CellOfEachType_KeepsItsType(string cell, RegisterValueKind kind, string text)
    {
        Write($"{Header}<row r=\"2\"><c r=\"A2\"><v>1</v></c>{cell}</row>");

        var value = (await AllAsync(_host.Readers.Open(Source())))[0].Rows[0].Row.Find("value")!.Value;

        Assert.Equal((kind, text), (value.Kind, value.Text));
    }

    [Fact]
    public async Task ReadAsync_WorkbookFrom1904_CountsFromThere()
    {
        Write($"{Header}<row r=\"2\"><c r=\"B2\" s=\"1\"><v>366</v></c></row>", workbookProperties: "<workbookPr date1904=\"1\"/>");

        // 1904 was a leap year: 366 days behind its first is the first of 1905.
        Assert.Equal("1905-01-01", (await AllAsync(_host.Readers.Open(Source())))[0].Rows[0].Row.Find("value")!.Value.Text);
    }

    [Fact]
    public async Task ReadAsync_MergedHiddenAndBeyondTheHeader_AreSaid()
    {
        Write(
            Header
            + "<row r=\"2\"><c r=\"A2\"><v>1</v></c><c r=\"B2\"><v>5</v></c></row>"
            + "<row r=\"3\" hidden=\"1\"><c r=\"A3\"><v>2</v></c></row>"
            + "<row r=\"4\"/><row r=\"7\"><c r=\"A7\"><v>3</v></c><c r=\"D7\"><v>9</v></c></row>",
            before: "<cols><col min=\"2\" max=\"2\" hidden=\"1\"/></cols>", behind: "<mergeCells><mergeCell ref=\"B2:B3\"/></mergeCells>");

        var pages = await AllAsync(_host.Readers.Open(Source()));

        Assert.Equal(["1", "2"], Ids(pages, "id"));
        // The covered cell is not written in the file at all, and yet no empty cell.
        Assert.Equal(RegisterValueKind.Error, pages[0].Rows[1].Row.Find("value")!.Value.Kind);
        Assert.Equal(["merged-cells", "hidden-rows", "hidden-columns"], pages[0].Notices.Select(n => n.Code));
        Assert.Equal("a.xlsx, row 7", Assert.Single(pages[0].Unreadable).Place);
    }

    [Fact]
    public async Task ReadAsync_TitleAboveTheHeader_IsPassedOver()
    {
        Write("<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>Assets of the works</t></is></c></row>" + Header.Replace("r=\"1\"", "r=\"3\"", StringComparison.Ordinal).Replace("A1", "A3", StringComparison.Ordinal).Replace("B1", "B3", StringComparison.Ordinal)
            + "<row r=\"9\"><c r=\"A9\"><v>1</v></c></row>");

        Assert.Equal(["1"], Ids(await AllAsync(_host.Readers.Open(Source() with { RowsBeforeHeader = 2 })), "id"));
        Assert.Equal(["1"], Ids(await AllAsync(_host.Readers.Open(Source() with { RowsBeforeHeader = 3, ColumnNames = ["id"] })), "id"));
    }

    [Fact]
    public async Task ReadAsync_SheetThatIsHidden_IsOnlyReadByItsName()
    {
        Write(Header + "<row r=\"2\"><c r=\"A2\"><v>1</v></c></row>", state: "hidden");

        Assert.Equal(RegisterFault.NoRows, (await FailAsync(_host.Readers.Open(Source()))).Failure.Fault);
        var pages = await AllAsync(_host.Readers.Open(Source() with { Sheet = "assets" }));
        Assert.Equal(["1"], Ids(pages, "id"));
        Assert.Contains(pages[0].Notices, n => n.Code == "hidden-sheet");
    }

    [Fact]
    public async Task ReadAsync_NoSpreadsheet_IsSaid()
    {
        await File.WriteAllTextAsync(_folder.Below("a.xlsx"), "id,value\n1,2\n");

        Assert.Equal(RegisterFault.Malformed, (await FailAsync(_host.Readers.Open(Source()))).Failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_DocumentTypeDeclaration_IsRefused()
    {
        File.WriteAllBytes(_folder.Below("a.xlsx"), TestWorkbook.Of("<!DOCTYPE x [<!ENTITY e SYSTEM \"file:///etc/passwd\">]>" + TestWorkbook.Sheet(Header + "<row><c><v>&e;</v></c></row>")));

        Assert.Equal(RegisterFault.Malformed, (await FailAsync(_host.Readers.Open(Source()))).Failure.Fault);
    }

    [Fact]
    public async Task ReadAsync_SmallFileThatUnpacksLarge_IsTooLarge()
    {
        Write(Header + new string(' ', 5_000_000));

        Assert.Equal(RegisterFault.TooLarge, (await FailAsync(_host.Readers.Open(Source() with { MostUnpackedBytes = 1024 * 1024 }))).Failure.Fault);
    }

    public void Dispose()
    {
        _host.Dispose();
        _folder.Dispose();
    }

    private static SpreadsheetRegisterOptions Source() => new() { Folder = "exports", Pattern = "*.xlsx" };

    private void Write(string rows, string before = "", string behind = "", string workbookProperties = "", string state = "visible") =>
        File.WriteAllBytes(_folder.Below("a.xlsx"), TestWorkbook.Of(
            TestWorkbook.Sheet(rows, before, behind),
            ["<t>shared</t>", "<r><t>rich </t></r><r><t>text</t></r><rPh><t>hint</t></rPh>"], workbookProperties, state));
}
