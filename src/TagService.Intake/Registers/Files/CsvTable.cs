using System.Globalization;
using TagService.Domain.Registers;

namespace TagService.Intake.Registers.Files;

/// <summary>A file of separated values.</summary>
internal sealed class CsvTable : ITable
{
    private const int Beginning = 64 * 1024;

    private readonly CsvRows _rows;
    private readonly CsvRegisterOptions _source;
    private readonly List<RegisterNotice> _notices = [];
    private readonly string _encoding;
    private bool _looseQuotesSaid;

    public CsvTable(Stream stream, CsvRegisterOptions source)
    {
        _source = source;
        var detected = TextEncodings.Detect(stream);
        // A byte order mark decides; else what is configured; else what was found.
        var encoding = detected.Confidence < 1 && source.Encoding is { } name ? TextEncodings.Of(name) : detected.Encoding;
        _encoding = encoding.WebName;
        if (source.Encoding is null && detected.Confidence < 1)
            _notices.Add(new("encoding-detected", string.Create(CultureInfo.InvariantCulture, $"The encoding was found to be {_encoding} (confidence {detected.Confidence:0.##}): {detected.Reason}.")));
        var separator = source.Separator ?? DetectSeparator(stream, encoding);
        _rows = new(new StreamReader(stream, encoding, detectEncodingFromByteOrderMarks: true, 64 * 1024), separator, source.MostRowCharacters);
        Columns = ReadHeader();
    }

    public RegisterColumns Columns { get; }

    public IEnumerable<RegisterNotice> TakeNotices()
    {
        if (_rows.HasLooseQuotes && !_looseQuotesSaid)
        {
            _looseQuotesSaid = true;
            _notices.Add(new("quotes-within-values", "Some values hold a quote although they are not quoted (RFC 4180, section 2); it is taken as it stands."));
        }

        var taken = _notices.ToArray();
        _notices.Clear();
        return taken;
    }

    public TableRow? Read()
    {
        if (!Next())
            return null;
        var fields = _rows.Fields;
        var reason = _rows switch
        {
            { IsMalformed: true } => "It has text behind a closing quote, or a quote that is not closed (RFC 4180, section 2).",
            _ when _rows.Text.Length > _source.MostRowCharacters => string.Create(CultureInfo.InvariantCulture, $"It has more than {_source.MostRowCharacters} characters."),
            _ when fields.Length != Columns.Names.Count => string.Create(CultureInfo.InvariantCulture, $"It has {fields.Length} values, the file has {Columns.Names.Count} columns."),
            _ when _rows.Text.Contains('\uFFFD') => $"It holds bytes that are no {_encoding}.",
            _ => null,
        };
        var values = reason is null ? Array.ConvertAll(fields, RegisterValue.OfText) : null;
        return new(_rows.Line, OriginalText.Of(_rows.Text), values, reason);
    }

    public void Dispose() => _rows.Dispose();

    private bool Next()
    {
        try
        {
            return _rows.Read();
        }
        catch (CsvHelper.CsvHelperException e)
        {
            throw new RegisterReadException(RegisterFault.Malformed, string.Create(CultureInfo.InvariantCulture, $"The file cannot be read on behind line {_rows.Line}."), e);
        }
    }

    private RegisterColumns ReadHeader()
    {
        for (var i = 0; i < _source.RowsBeforeHeader; i++)
            Next();
        if (_source.ColumnNames is { } names)
            return TableColumns.Of(names, _source, _notices);
        if (!Next())
            throw new RegisterReadException(RegisterFault.NoRows, "The file has no header row.");
        return TableColumns.Of(_rows.Fields, _source, _notices);
    }

    private char DetectSeparator(Stream stream, System.Text.Encoding encoding)
    {
        var buffer = new char[Beginning];
        using var reader = new StreamReader(stream, encoding, detectEncodingFromByteOrderMarks: true, Beginning, leaveOpen: true);
        var read = reader.ReadBlock(buffer, 0, buffer.Length);
        stream.Position = 0;
        var text = new string(buffer, 0, read);
        for (var i = 0; i < _source.RowsBeforeHeader && text.Contains('\n', StringComparison.Ordinal); i++)
            text = text[(text.IndexOf('\n', StringComparison.Ordinal) + 1)..];
        var (separator, confidence) = SeparatorDetection.Detect(text);
        if (confidence < 1)
            _notices.Add(new("separator-detected", string.Create(CultureInfo.InvariantCulture, $"The separator was found to be {Name(separator)} (confidence {confidence:0.##}).")));
        return separator;
    }

    private static string Name(char separator) => separator switch
    {
        ',' => "a comma",
        ';' => "a semicolon",
        '\t' => "a tab",
        _ => "a bar",
    };
}
