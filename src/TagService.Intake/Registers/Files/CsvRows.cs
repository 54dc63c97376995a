using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace TagService.Intake.Registers.Files;

/// <summary>
/// Rows of separated values (RFC 4180), read one by one. A quote inside a value that does not begin with one stands for itself (3/4"
/// valve); text behind a closing quote and a quote that is never closed make a row malformed. Blank lines are passed over.
/// </summary>
internal sealed class CsvRows : IDisposable
{
    private readonly CsvParser _parser;
    private readonly RowLimitReader _reader;

    // A quote is open to the end of the file, and the file ends with a line break: that one belongs to the value.
    private bool _endsOpen;

    public CsvRows(TextReader text, char separator, int mostRowCharacters)
    {
        _reader = new(text, mostRowCharacters);
        _parser = new(_reader, new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = separator.ToString(),
            HasHeaderRecord = false,
            IgnoreBlankLines = true,
            DetectDelimiter = false,
            CountBytes = false,
            BufferSize = 16 * 1024,
            BadDataFound = bad =>
            {
                IsMalformed |= bad.Field.TrimStart().StartsWith('"') || bad.Field.Length == 0;
                _endsOpen = bad.Field is [.., '\n' or '\r'];
                HasLooseQuotes = true;
            },
        });
    }

    /// <summary>Values of the row at hand.</summary>
    public string[] Fields { get; private set; } = [];

    /// <summary>Text of the row at hand as it stands in the file.</summary>
    public ReadOnlySpan<char> Text => _parser.RawRecord;

    /// <summary>Line on which the row at hand begins, counted from 1.</summary>
    public long Line { get; private set; }

    /// <summary>The row at hand is no row of RFC 4180, and what was meant is open.</summary>
    public bool IsMalformed { get; private set; }

    /// <summary>Some value so far holds a quote although it is not quoted.</summary>
    public bool HasLooseQuotes { get; private set; }

    /// <summary>Goes to the next row.</summary>
    /// <exception cref="RegisterReadException">A row is too large, or the file cannot be read.</exception>
    public bool Read()
    {
        BeginRow();
        try
        {
            return _parser.Read() && EndRow();
        }
        catch (IOException e)
        {
            throw new RegisterReadException(RegisterFault.Unreachable, "The file cannot be read on.", e);
        }
    }

    /// <summary>The same for a text that arrives; what goes wrong on the way comes through as it is.</summary>
    /// <exception cref="RegisterReadException">A row is too large.</exception>
    public async Task<bool> ReadAsync()
    {
        BeginRow();
        return await _parser.ReadAsync() && EndRow();
    }

    private void BeginRow()
    {
        (IsMalformed, _endsOpen) = (false, false);
        _reader.BeginRow();
    }

    private bool EndRow()
    {
        Fields = _parser.Record ?? [];
        var raw = _parser.RawRecord.AsSpan();
        Line = _parser.RawRow - LinesWithin(_endsOpen ? raw : raw.TrimEnd("\r\n"));
        return true;
    }

    public void Dispose()
    {
        _parser.Dispose();
        _reader.Dispose();
    }

    private static int LinesWithin(ReadOnlySpan<char> text)
    {
        var lines = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
                lines++;
        }

        return lines;
    }
}

/// <summary>Ends the reading when one row grows beyond its limit, before it fills the memory.</summary>
internal sealed class RowLimitReader(TextReader inner, int mostCharacters) : TextReader
{
    // The parser reads ahead by a buffer.
    private const int ReadAhead = 64 * 1024;

    private long _sinceRow;

    public void BeginRow() => _sinceRow = 0;

    public override int Read(char[] buffer, int index, int count)
    {
        EndIfTooLong();
        var read = inner.Read(buffer, index, count);
        _sinceRow += read;
        return read;
    }

    public override async Task<int> ReadAsync(char[] buffer, int index, int count)
    {
        EndIfTooLong();
        var read = await inner.ReadAsync(buffer.AsMemory(index, count));
        _sinceRow += read;
        return read;
    }

    public override int Peek() => inner.Peek();

    public override int Read() => inner.Read();

    private void EndIfTooLong()
    {
        if (_sinceRow > (long)mostCharacters + ReadAhead)
            throw new RegisterReadException(RegisterFault.TooLarge, string.Create(CultureInfo.InvariantCulture, $"A row has more than {mostCharacters} characters; perhaps a quote is never closed."));
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
            inner.Dispose();
        base.Dispose(disposing);
    }
}
