using System.Globalization;

namespace TagService.Domain.Registers;

/// <summary>Finds what one column might feed: by its name, by what its values look like, and by how many of them would be understood.</summary>
internal static class ColumnSuggestion
{
    // Planning values: how far a shape alone is trusted, and the least share for it to count.
    private const double Mostly = 0.8;
    private const double ByIdentityShape = 0.85;
    private const double ByKnownLocations = 0.85;
    private const double ByMaterialShape = 0.6;
    private const double UnitNotStated = 0.7;
    private const double LeastWorthShowing = 0.2;

    public static MappingSuggestion Of(
        string source, IReadOnlyList<RegisterValue> values, int rows, IReadOnlySet<string> places, DateOnly asOf)
    {
        var shape = ValueShape.Of(values, places);
        MappingSuggestion? best = null;
        foreach (var (target, trust, reason) in Candidates(source, shape, rows))
        {
            var (row, understood, examples) = BestOrder(Details(source, target, shape, out var unitNote), values, asOf);
            var confidence = trust * (0.3 + (0.7 * understood)) * (unitNote is not null ? UnitNotStated : 1);
            if (best is not null && best.Confidence >= confidence)
                continue;
            string[] reasons = [reason, .. Notes(understood, values.Count, unitNote)];
            best = new(source, row, Math.Round(confidence, 3), reasons, null, examples, shape);
        }

        return best is { Confidence: >= LeastWorthShowing }
            ? best
            : new(source, null, 0, ["neither its name nor its values point to a field; it would be kept as an attribute"], null, [], shape);
    }

    private static IEnumerable<(MappingTarget Target, double Trust, string Reason)> Candidates(string source, ValueShape shape, int rows)
    {
        var name = source.StartsWith('/') && JsonPointers.IsValid(source) ? string.Join(' ', JsonPointers.Tokens(source)) : source;
        foreach (var (target, phrase, trust) in MappingName.Find(name))
        {
            // A key is there in every row and different in each; a date of disposal is not.
            if (target == MappingTargets.AssetId && (shape.Distinct < 1 || shape.Count < rows))
                yield return (target, trust * 0.6, $"its name says \"{phrase}\", but not every row has a value of its own");
            else
                yield return (target, 0.95 * trust, $"its name says \"{phrase}\"");
        }

        if (shape.Identity >= Mostly)
            yield return (MappingTargets.Tag, ByIdentityShape * shape.Identity, "its values look like identities of tags");
        if (shape.KnownLocation >= Mostly / 2)
            yield return (MappingTargets.Location, ByKnownLocations * shape.KnownLocation, "its values are names of known places");
        if (shape.Material >= Mostly)
            yield return (MappingTargets.Find("/surface/material")!, ByMaterialShape * shape.Material, "its values are names of materials");
    }

    private static MappingRow Details(string source, MappingTarget target, ValueShape shape, out string? unitNote)
    {
        unitNote = null;
        var row = new MappingRow
        {
            Target = target.Pointer,
            Source = source,
            DecimalMark = shape.HasDecimalComma ? DecimalMark.Comma : DecimalMark.Unambiguous,
        };
        if (target.TakesDate && shape.Date >= Mostly)
            return row with { Unit = MappingRow.DateUnit };
        if (target.Unit is not { } own)
            return row;
        var dimension = RegisterUnits.Table[own].Dimension;
        // The last words of a name, or what stands in brackets: "Länge [cm]", "temp_max_F", "lengthMm".
        var unit = MappingName.Spaced(source).Split(' ', StringSplitOptions.RemoveEmptyEntries).Skip(1).Reverse()
            .Select(w => RegisterUnits.Find(w, dimension) ?? RegisterUnits.Find(w.ToLowerInvariant(), dimension)).FirstOrDefault(u => u is not null);
        if (unit is null && shape.Length < Mostly)
            unitNote = $"no unit is stated: its numbers are taken as {own}; check";
        return row with { Unit = unit?.Id };
    }

    // 03/04/2025 alone tells nothing; 25/12/2025 in the same column does.
    private static (MappingRow Row, double Share, IReadOnlyList<string> Examples) BestOrder(MappingRow row, IReadOnlyList<RegisterValue> values, DateOnly asOf)
    {
        DateOrder[] orders = row.Unit == MappingRow.DateUnit ? Enum.GetValues<DateOrder>() : [row.DateOrder];
        return orders
            .Select(order => row with { DateOrder = order })
            .Select(r => (Row: r, Understood: Understood(r, values, asOf)))
            .OrderByDescending(t => t.Understood.Share)
            .Select(t => (t.Row, t.Understood.Share, t.Understood.Examples))
            .First();
    }

    private static (double Share, IReadOnlyList<string> Examples) Understood(MappingRow row, IReadOnlyList<RegisterValue> values, DateOnly asOf)
    {
        if (values.Count == 0)
            return (0, []);
        var compiled = new MappingCheck(new() { Rows = [row] }).Rows[0];
        var not = values.Where(v => ValueReading.Read(v, compiled, asOf) is var read && (read.Error is not null || read.Unknown is not null)).ToArray();
        return (1 - ((double)not.Length / values.Count), [.. not.Select(v => MappingTexts.Quote(v.Text)).Distinct(StringComparer.Ordinal).Take(5)]);
    }

    private static IEnumerable<string> Notes(double understood, int count, string? unitNote)
    {
        if (count == 0)
            yield return "the sample has no value of it";
        else if (understood < 1)
            yield return string.Create(CultureInfo.InvariantCulture, $"{understood:P0} of {count} sample values are understood");
        if (unitNote is not null)
            yield return unitNote;
    }
}
