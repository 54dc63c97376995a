using System.Text;

namespace TagService.Api.Http;

/// <summary>Writes CSV (RFC 4180): every field quoted, lines ended by CR LF.</summary>
internal sealed class CsvText
{
    private readonly StringBuilder _text = new();

    /// <summary>Adds a line.</summary>
    public void Line(params IEnumerable<string?> fields)
    {
        _text.AppendJoin(',', fields.Select(Quoted)).Append("\r\n");
    }

    /// <inheritdoc />
    public override string ToString() => _text.ToString();

    // A field that begins like a formula is shown as text: a spreadsheet would otherwise run what a register's field holds.
    private static string Quoted(string? field)
    {
        var text = field ?? "";
        if (text is ['=' or '+' or '-' or '@' or '\t' or '\r', ..])
            text = "'" + text;
        return $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
