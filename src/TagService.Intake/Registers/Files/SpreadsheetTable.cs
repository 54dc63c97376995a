using System.Globalization;
using System.IO.Compression;
using System.Xml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>One sheet of a spreadsheet.</summary>
internal sealed class SpreadsheetTable : ITable
{
    private const int MostParts = 10_000;

    private readonly SpreadsheetRegisterOptions _source;
    private readonly SpreadsheetDocument _document;
    private readonly SheetRows _rows;
    private readonly List<RegisterNotice> _notices = [];

    // The first row of values has been read while looking for it.
    private bool _isAhead;

    private SpreadsheetTable(SpreadsheetDocument document, SpreadsheetRegisterOptions source)
    {
        (_document, _source) = (document, source);
        var workbook = document.WorkbookPart ?? throw Malformed(null);
        var part = Sheet(workbook);
        using (var xml = Open(part))
        {
            var layout = new SheetLayout(xml);
            _notices.AddRange(layout.Notices());
            using var texts = workbook.SharedStringTablePart?.GetStream(FileMode.Open, FileAccess.Read);
            _rows = new(Open(part), SheetTexts.Shared(texts, source.MostSharedCharacters), new(workbook), layout);
        }

        Columns = ReadHeader();
    }

    public RegisterColumns Columns { get; }

    /// <summary>Opens a spreadsheet; the stream is closed with the table.</summary>
    /// <exception cref="RegisterReadException">It is none, is protected, too large, or has no such sheet.</exception>
    public static SpreadsheetTable Open(Stream stream, SpreadsheetRegisterOptions source) => Guarded(() =>
    {
        CheckParts(stream, source.MostUnpackedBytes);
        var document = SpreadsheetDocument.Open(stream, isEditable: false, new OpenSettings { AutoSave = false });
        try
        {
            return new SpreadsheetTable(document, source);
        }
        catch
        {
            document.Dispose();
            throw;
        }
    });

    public IEnumerable<RegisterNotice> TakeNotices()
    {
        var taken = _notices.ToArray();
        _notices.Clear();
        return taken;
    }

    public TableRow? Read() => Guarded(() =>
    {
        if (!_isAhead && !_rows.Read())
            return null;
        _isAhead = false;
        var values = new RegisterValue[Columns.Names.Count];
        Array.Fill(values, RegisterValue.Empty);
        string? reason = null;
        foreach (var (column, value) in _rows.Cells)
        {
            if (column <= values.Length)
                values[column - 1] = value;
            else if (value.Kind != RegisterValueKind.Error)
                reason ??= string.Create(CultureInfo.InvariantCulture, $"It has a value in column {column}, the sheet has {values.Length} columns with a name.");
        }

        var text = OriginalText.Of(string.Join('\t', _rows.Cells.Select(c => c.Value.Text)));
        return new TableRow(_rows.Number, text, reason is null ? values : null, reason);
    });

    public void Dispose()
    {
        _rows.Dispose();
        _document.Dispose();
    }

    private XmlReader Open(WorksheetPart part) =>
        XmlReader.Create(part.GetStream(FileMode.Open, FileAccess.Read), CloseInput(SheetTexts.Settings(_source.MostUnpackedBytes)));

    private static XmlReaderSettings CloseInput(XmlReaderSettings settings)
    {
        settings.CloseInput = true;
        return settings;
    }

    private WorksheetPart Sheet(WorkbookPart workbook)
    {
        var sheets = workbook.Workbook?.Sheets?.Elements<Sheet>().ToArray() ?? [];
        var sheet = _source.Sheet is { } name
            ? sheets.FirstOrDefault(s => string.Equals(s.Name?.Value, name, StringComparison.OrdinalIgnoreCase))
            : sheets.FirstOrDefault(s => !IsHidden(s));
        if (sheet?.Id?.Value is not { } id || !workbook.TryGetPartById(id, out var part) || part is not WorksheetPart worksheet)
            throw new RegisterReadException(RegisterFault.NoRows, $"The spreadsheet has no sheet {_source.Sheet ?? "that is not hidden"}.");
        if (IsHidden(sheet))
            _notices.Add(new("hidden-sheet", $"The sheet {sheet.Name} is hidden; it is read because the source names it."));
        return worksheet;
    }

    private static bool IsHidden(Sheet sheet) => sheet.State is { HasValue: true } state && state.Value != SheetStateValues.Visible;

    private RegisterColumns ReadHeader()
    {
        if (_source.ColumnNames is { } names)
        {
            // Rows above are counted as the sheet numbers them, empty ones included.
            while (!_isAhead && _rows.Read())
                _isAhead = _rows.Number > _source.RowsBeforeHeader;
            return TableColumns.Of(names, _source, _notices);
        }

        do
        {
            if (!_rows.Read())
                throw new RegisterReadException(RegisterFault.NoRows, "The sheet has no header row.");
        }
        while (_rows.Number <= _source.RowsBeforeHeader);
        var last = _rows.Cells.Where(c => c.Value.Kind != RegisterValueKind.Error).Select(c => c.Column).DefaultIfEmpty(1).Max();
        if (last > _source.MostColumns)
            throw new RegisterReadException(RegisterFault.Malformed, string.Create(CultureInfo.InvariantCulture, $"The header reaches to column {last}; at most {_source.MostColumns} are read."));
        var header = new string[last];
        Array.Fill(header, "");
        foreach (var (column, value) in _rows.Cells.Where(c => c.Value.Kind != RegisterValueKind.Error && c.Column <= last))
            header[column - 1] = value.Text;
        return TableColumns.Of(header, _source, _notices);
    }

    // What the directory of the archive says; the parts themselves are read with limits too.
    private static void CheckParts(Stream stream, long mostBytes)
    {
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true))
        {
            if (archive.Entries.Count > MostParts || archive.Entries.Sum(e => (decimal)e.Length) > mostBytes)
                throw new RegisterReadException(RegisterFault.TooLarge, string.Create(CultureInfo.InvariantCulture, $"The spreadsheet has more than {MostParts} parts or {mostBytes} bytes unpacked."));
        }

        stream.Position = 0;
    }

    private static T Guarded<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is XmlException or InvalidDataException or OpenXmlPackageException or FormatException or IOException
            or InvalidOperationException or ArgumentException or KeyNotFoundException or NotSupportedException or System.Text.DecoderFallbackException)
        {
            throw Malformed(e);
        }
    }

    private static RegisterReadException Malformed(Exception? e) => new(
        RegisterFault.Malformed, "The file is no spreadsheet in the Office Open XML format (.xlsx), is damaged, or is protected by a password.", e);
}
