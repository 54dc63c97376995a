using System.IO.Compression;
using System.Text;

namespace TagService.Service.Tests.Registers;

/// <summary>
/// Workbooks written by hand, part by part, in the form of ECMA-376 part 1 (SpreadsheetML) and part 2 (packages), so that no library
/// stands on both sides.
/// </summary>
internal static class TestWorkbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006";

    /// <summary>Cell formats 0: general, 1: built-in 14 (a date), 2: own code yyyy-mm-dd hh:mm, 3: own code 0.00 "days".</summary>
    private const string Styles =
        $"<styleSheet xmlns=\"{Main}\"><numFmts count=\"2\"><numFmt numFmtId=\"164\" formatCode=\"yyyy\\-mm\\-dd\\ hh:mm\"/><numFmt numFmtId=\"165\" formatCode=\"0.00 &quot;days&quot;\"/></numFmts>"
        + "<fonts count=\"1\"><font/></fonts><fills count=\"1\"><fill/></fills><borders count=\"1\"><border/></borders><cellStyleXfs count=\"1\"><xf/></cellStyleXfs>"
        + "<cellXfs count=\"4\"><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/></cellXfs></styleSheet>";

    /// <summary>A sheet with these rows as XML, and what stands before and behind them.</summary>
    public static string Sheet(string rows, string before = "", string behind = "") =>
        $"<worksheet xmlns=\"{Main}\">{before}<sheetData>{rows}</sheetData>{behind}</worksheet>";

    /// <summary>A workbook with one sheet called Assets.</summary>
    public static byte[] Of(string sheet, IEnumerable<string>? sharedTexts = null, string workbookProperties = "", string state = "visible")
    {
        using var stream = new MemoryStream();
        Write(stream, w => w.Write(sheet), sharedTexts ?? [], workbookProperties, state);
        return stream.ToArray();
    }

    /// <summary>Writes a workbook; the sheet is written piece by piece.</summary>
    public static void Write(Stream stream, Action<TextWriter> sheet, IEnumerable<string> sharedTexts, string workbookProperties = "", string state = "visible")
    {
        using var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        Part(archive, "[Content_Types].xml", w => w.Write(
            $"<Types xmlns=\"{Package}/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
            + Override("workbook.xml", "sheet.main") + Override("sheet1.xml", "worksheet") + Override("styles.xml", "styles") + Override("shared.xml", "sharedStrings") + "</Types>"));
        Part(archive, "_rels/.rels", w => w.Write($"<Relationships xmlns=\"{Package}/relationships\">{Relation("r1", "officeDocument", "xl/workbook.xml")}</Relationships>"));
        Part(archive, "xl/workbook.xml", w => w.Write(
            $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Relations}\">{workbookProperties}<sheets><sheet name=\"Assets\" sheetId=\"1\" state=\"{state}\" r:id=\"r1\"/></sheets></workbook>"));
        Part(archive, "xl/_rels/workbook.xml.rels", w => w.Write(
            $"<Relationships xmlns=\"{Package}/relationships\">{Relation("r1", "worksheet", "sheet1.xml")}{Relation("r2", "styles", "styles.xml")}{Relation("r3", "sharedStrings", "shared.xml")}</Relationships>"));
        Part(archive, "xl/styles.xml", w => w.Write(Styles));
        Part(archive, "xl/shared.xml", w =>
        {
            w.Write($"<sst xmlns=\"{Main}\">");
            foreach (var text in sharedTexts)
                w.Write($"<si>{text}</si>");
            w.Write("</sst>");
        });
        Part(archive, "xl/sheet1.xml", sheet);
    }

    private static string Override(string part, string type) =>
        $"<Override PartName=\"/xl/{part}\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.{type}+xml\"/>";

    private static string Relation(string id, string type, string target) =>
        $"<Relationship Id=\"{id}\" Type=\"{Relations}/{type}\" Target=\"{target}\"/>";

    private static void Part(ZipArchive archive, string name, Action<TextWriter> write)
    {
        using var writer = new StreamWriter(archive.CreateEntry(name, CompressionLevel.Fastest).Open(), new UTF8Encoding(false));
        write(writer);
    }
}
