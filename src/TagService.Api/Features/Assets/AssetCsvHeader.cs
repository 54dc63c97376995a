using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Intake.Csv;

namespace TagService.Api.Features.Assets;

/// <summary>
/// The columns of a batch in CSV: members of an asset by their path with dots (<c>surface.material</c>), lists in one cell with semicolons,
/// and the register's own fields under any other name. Each record becomes the JSON object that a line of NDJSON would be.
/// </summary>
internal sealed class AssetCsvHeader
{
    private static readonly JsonShape Shape = JsonShape.Of(typeof(AssetRequest));

    private readonly (string[] Path, ShapeKind Kind)[] _columns;

    private AssetCsvHeader((string[] Path, ShapeKind Kind)[] columns) => _columns = columns;

    /// <summary>Reads the header.</summary>
    /// <param name="row">The first record; null when there is none.</param>
    /// <param name="strict">Refuse the register's own fields.</param>
    /// <param name="problem">What is wrong with it.</param>
    public static AssetCsvHeader? Read(CsvRow? row, bool strict, out ApiProblem? problem)
    {
        var errors = new List<ProblemError>();
        string[] names = row is { Fault: null } ? [.. row.Cells.Select(c => c.Trim())] : [];
        var columns = names.Select(n => Column(n, strict, errors)).ToArray();
        errors.AddRange(names.GroupBy(n => n, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1)
            .Select(g => new ProblemError("#", JsonText.Clip(g.Key), "The column is there twice.", "each column once")));
        if (!names.Contains("assetId", StringComparer.Ordinal))
            errors.Add(new("#", null, names.Any(n => n.Contains("assetId;", StringComparison.Ordinal)) ? "Fields are separated by commas, not semicolons." : "The column assetId is missing.", "assetId"));
        problem = errors.Count == 0 ? null : new(
            ProblemTypes.InvalidFields, $"The header, the first line, cannot be used: {row?.Fault ?? errors[0].Detail}", [.. errors.Take(50)]);
        return problem is null ? new(columns) : null;
    }

    /// <summary>The record as JSON; or why it cannot be read.</summary>
    public byte[]? Json(CsvRow row, out ApiProblem? problem)
    {
        problem = row.Fault is { } fault ? new(ProblemTypes.MalformedBody, fault)
            : row.Cells.Count == _columns.Length ? null
            : new(ProblemTypes.MalformedBody, string.Create(CultureInfo.InvariantCulture, $"The line has {row.Cells.Count} fields, the header has {_columns.Length}."));
        if (problem is not null)
            return null;
        var record = new JsonObject();
        for (var i = 0; i < _columns.Length; i++)
        {
            if (row.Cells[i].Length == 0)
                continue;
            var (path, kind) = _columns[i];
            var at = record;
            foreach (var step in path[..^1])
                at = (JsonObject)(at[step] ??= new JsonObject());
            at[path[^1]] = Value(row.Cells[i], kind);
        }

        return JsonSerializer.SerializeToUtf8Bytes(record, WireJson.Options);
    }

    private static (string[] Path, ShapeKind Kind) Column(string name, bool strict, List<ProblemError> errors)
    {
        string[] path = name.Split('.');
        JsonMember? member = null;
        var shape = Shape;
        foreach (var step in path)
        {
            if (shape.Kind != ShapeKind.Object || !shape.Members.TryGetValue(step, out member))
            {
                member = null;
                break;
            }

            shape = member.Shape;
        }

        if (member is { Shape.Kind: not (ShapeKind.Object or ShapeKind.Map) })
            return (path, member.Shape.Kind);
        var place = Shape.Places.GetValueOrDefault(name);
        var isKnown = Shape.Members.ContainsKey(path[0]) || (place is not null && !AssetReader.ReadOptions.NotMisplaced.Contains(name));
        if (isKnown || strict || name.Length == 0)
            errors.Add(new("#", JsonText.Clip(name), "Not a known column.", place?.TrimStart('/').Replace('/', '.') ?? "members of an asset by their path, for example surface.material"));
        return ([name], ShapeKind.Text);
    }

    // What does not read as the column's kind goes on as text, and is refused where all values are.
    private static JsonNode Value(string cell, ShapeKind kind) => kind switch
    {
        ShapeKind.Boolean when cell is "true" or "false" => JsonValue.Create(cell == "true"),
        ShapeKind.WholeNumber when long.TryParse(cell, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var whole) => JsonValue.Create(whole),
        ShapeKind.Number when double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) => JsonValue.Create(number),
        ShapeKind.List => new JsonArray([.. cell.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(i => JsonValue.Create(i))]),
        _ => JsonValue.Create(cell),
    };
}
