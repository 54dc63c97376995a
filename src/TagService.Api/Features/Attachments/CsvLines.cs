using System.Buffers;
using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.Json;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Intake.Csv;

namespace TagService.Api.Features.Attachments;

/// <summary>
/// A batch in CSV. Each record becomes the JSON object that a line of NDJSON would be and is read as that: one set of names, ranges
/// and messages for both.
/// </summary>
internal sealed class CsvLines
{
    private readonly JsonMember[] _columns;
    private readonly JsonReadOptions _options;

    private CsvLines(JsonMember[] columns, JsonReadOptions options)
    {
        _columns = columns;
        _options = options;
    }

    /// <summary>Reads the header.</summary>
    /// <param name="rows">The text.</param>
    /// <param name="options">Limits of one line.</param>
    /// <returns>The reader of the lines; or what is wrong with the header.</returns>
    public static async Task<(CsvLines? Lines, ApiProblem? Problem)> OpenAsync(IAsyncEnumerator<CsvRow> rows, JsonReadOptions options)
    {
        if (!await rows.MoveNextAsync())
            return (null, Header("The text is empty.", null));
        if (rows.Current.Fault is { } fault)
            return (null, Header(fault, null));
        var known = JsonShape.Of(typeof(AttachmentLineRequest)).Members;
        string[] names = [.. rows.Current.Cells.Select(c => c.Trim())];
        ProblemError[] errors =
        [
            .. names.Where(n => !known.ContainsKey(n)).Select(n => new ProblemError(
                "#", JsonText.Clip(n), n.Contains(';', StringComparison.Ordinal) ? "Not a known column; fields are separated by commas, not semicolons."
                    : n.Contains('\t', StringComparison.Ordinal) ? "Not a known column; fields are separated by commas, not tabs." : "Not a known column.",
                NearestName.Of(n, known.Keys) is { } near ? $"perhaps {near}" : string.Join(", ", known.Keys.Order(StringComparer.Ordinal)))),
            .. names.GroupBy(n => n, StringComparer.Ordinal).Where(g => g.Count() > 1).Select(g => new ProblemError("#", JsonText.Clip(g.Key), "The column is there twice.", "each column once")),
            .. known.Values.Where(m => m.Required && !names.Contains(m.Name)).Select(m => new ProblemError("#", null, $"The column {m.Name} is missing.", m.Name)),
        ];
        return errors.Length > 0
            ? (null, Header(errors[0].Detail, [.. errors.Take(50)]))
            : (new([.. names.Select(n => known[n])], options), null);
    }

    /// <summary>The lines behind the header, some at a time.</summary>
    public async IAsyncEnumerable<List<BatchLine>> ReadAsync(
        IAsyncEnumerator<CsvRow> rows, int most, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var some = new List<BatchLine>(most);
        var json = new ArrayBufferWriter<byte>();
        while (await rows.MoveNextAsync())
        {
            cancellationToken.ThrowIfCancellationRequested();
            some.Add(Read(rows.Current, json));
            if (some.Count < most)
                continue;
            yield return some;
            some = new(most);
        }

        if (some.Count > 0)
            yield return some;
    }

    private BatchLine Read(CsvRow row, ArrayBufferWriter<byte> json)
    {
        if (row.Fault is { } fault)
            return new(row.Line, null, new(ProblemTypes.MalformedBody, fault));
        if (row.Cells.Count != _columns.Length)
        {
            return new(row.Line, null, new(ProblemTypes.MalformedBody, string.Create(
                CultureInfo.InvariantCulture, $"The line has {row.Cells.Count} fields, the header has {_columns.Length}.")));
        }

        json.ResetWrittenCount();
        using (var writer = new Utf8JsonWriter(json))
        {
            writer.WriteStartObject();
            for (var i = 0; i < _columns.Length; i++)
                Write(writer, _columns[i], row.Cells[i]);
            writer.WriteEndObject();
        }

        if (json.WrittenCount > _options.MaxBytes)
            return new(row.Line, null, JsonRequest.TooLarge(_options));
        var body = JsonBody.Read<AttachmentLineRequest>(json.WrittenSpan, _options);
        return new(row.Line, body.Value, body.Problem);
    }

    // What does not read as the column's kind goes on as text, and is refused where all values are.
    private static void Write(Utf8JsonWriter writer, JsonMember column, string cell)
    {
        if (cell.Length == 0)
            return;
        if (column.Shape.Kind == ShapeKind.Boolean && cell is "true" or "false")
            writer.WriteBoolean(column.Name, cell == "true");
        else if (column.Shape.Kind == ShapeKind.Number && double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number))
            writer.WriteNumber(column.Name, number);
        else
            writer.WriteString(column.Name, cell);
    }

    private static ApiProblem Header(string detail, ProblemError[]? errors) => new(ProblemTypes.InvalidFields, $"The header, the first line, cannot be used: {detail}", errors);
}
