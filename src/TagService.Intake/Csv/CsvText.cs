using System.Runtime.CompilerServices;
using System.Text;
using TagService.Intake.Registers;
using TagService.Intake.Registers.Files;

namespace TagService.Intake.Csv;

/// <summary>CSV as RFC 4180 has it: commas, fields in double quotes where needed, quotes doubled within, lines ended by CRLF or LF; UTF-8.</summary>
public static class CsvText
{
    private const int BufferBytes = 64 * 1024;
    private const char NotUtf8 = '\uFFFD';

    /// <summary>
    /// The records one after another as they arrive, the header first, in bounded memory. Blank lines are left out. Behind a record
    /// longer than allowed nothing can be read: it is the last one, with its fault.
    /// </summary>
    /// <param name="stream">The text.</param>
    /// <param name="mostCharacters">Most characters of a record.</param>
    /// <param name="cancellationToken">Stops reading.</param>
    public static async IAsyncEnumerable<CsvRow> ReadAsync(Stream stream, int mostCharacters, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        using var rows = new CsvRows(new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true, BufferBytes, leaveOpen: true), ',', mostCharacters);
        while (true)
        {
            cancellationToken.ThrowIfCancellationRequested();
            CsvRow? tooLong = null;
            try
            {
                if (!await rows.ReadAsync())
                    yield break;
            }
            catch (RegisterReadException e) when (e.Fault == RegisterFault.TooLarge)
            {
                tooLong = new(rows.Line + 1, [], $"{e.Message} What follows cannot be read.");
            }

            if (tooLong is not null)
            {
                yield return tooLong;
                yield break;
            }

            yield return new(rows.Line, rows.Fields, FaultOf(rows));
        }
    }

    private static string? FaultOf(CsvRows rows) =>
        rows.IsMalformed ? "It has text behind a closing quote, or a quote that is not closed (RFC 4180, section 2)."
        : rows.Text.Contains(NotUtf8) ? "It holds bytes that are not UTF-8."
        : null;
}
