using System.Runtime.CompilerServices;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Intake.Csv;

namespace TagService.Api.Features.Assets;

/// <summary>One line of a batch as it was understood.</summary>
internal readonly record struct AssetLine(long Number, AssetDraft Draft);

/// <summary>A batch cut into parts, each to be parsed on its own wherever there is a free core.</summary>
/// <param name="options">How a line is read.</param>
/// <param name="clock">The clock.</param>
internal sealed class AssetLines(JsonReadOptions options, TimeProvider clock)
{
    /// <summary>Most lines of a part.</summary>
    public const int LinesPerPart = 64;

    /// <summary>Parts of a text in NDJSON, as lines arrive.</summary>
    public async IAsyncEnumerable<Func<AssetLine[]>> NdjsonAsync(LineReader lines, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        while (await lines.ReadAsync(LinesPerPart, cancellationToken) is { Count: > 0 } part)
        {
            yield return () => Parsed(part, line =>
            {
                try
                {
                    return new(line.Number, line.TooLong ? JsonRequest.TooLarge(options) : Read(line.Text));
                }
                finally
                {
                    line.Return();
                }
            });
        }
    }

    /// <summary>Parts of a text in CSV behind its header.</summary>
    public async IAsyncEnumerable<Func<AssetLine[]>> CsvAsync(
        IAsyncEnumerator<CsvRow> rows, AssetCsvHeader header, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        for (var more = true; more;)
        {
            var part = new List<CsvRow>(LinesPerPart);
            while (part.Count < LinesPerPart && (more = await rows.MoveNextAsync()))
                part.Add(rows.Current);
            cancellationToken.ThrowIfCancellationRequested();
            yield return () => Parsed(part, row => new(row.Line, header.Json(row, out var problem) is { } json ? Read(json) : problem!));
        }
    }

    private AssetDraft Read(ReadOnlySpan<byte> json)
    {
        var body = JsonBody.Read<AssetRequest>(json, options);
        return body.IsRead ? AssetReader.Read(body.Value, null, clock.GetUtcNow()) : body.Problem;
    }

    private static AssetLine[] Parsed<T>(List<T> part, Func<T, AssetLine> parse)
    {
        var lines = new AssetLine[part.Count];
        for (var i = 0; i < lines.Length; i++)
            lines[i] = parse(part[i]);
        return lines;
    }
}
