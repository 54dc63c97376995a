namespace TagService.Domain.Registers;

/// <summary>What one column of a register might feed. A suggestion is shown with its reasons and never taken over by itself.</summary>
/// <param name="Source">Column name or JSON pointer.</param>
/// <param name="Row">The mapping row suggested; null when nothing fits.</param>
/// <param name="Confidence">From 0 to 1; a planning value for ranking, not a probability.</param>
/// <param name="Reasons">Why, and what to check.</param>
/// <param name="BetterSource">Another column that fits the same field better; then this one would be refused beside it.</param>
/// <param name="NotUnderstood">Up to five values of the sample that the suggested row does not understand.</param>
/// <param name="Shape">What its values look like.</param>
public sealed record MappingSuggestion(
    string Source, MappingRow? Row, double Confidence, IReadOnlyList<string> Reasons, string? BetterSource,
    IReadOnlyList<string> NotUnderstood, ValueShape Shape)
{
    private const int MostSamples = 2000;

    /// <summary>One suggestion a column, in the columns' order.</summary>
    /// <param name="sample">Rows as read; the first 2,000 count.</param>
    /// <param name="knownLocations">Names of places that are known already, compared without regard to case.</param>
    /// <param name="asOf">Day that dates are compared with.</param>
    public static IReadOnlyList<MappingSuggestion> From(
        IReadOnlyList<RegisterRow> sample, IEnumerable<string> knownLocations, DateOnly asOf)
    {
        var places = knownLocations.Select(l => l.Trim()).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var rows = sample.Take(MostSamples).ToArray();
        var sources = rows.SelectMany(r => r.Columns.Names).Distinct(StringComparer.Ordinal).ToArray();
        var suggestions = sources
            .Select(source => ColumnSuggestion.Of(source, ValuesOf(rows, source), rows.Length, places, asOf))
            .ToArray();
        var best = suggestions
            .Where(s => s.Row is not null)
            .GroupBy(s => s.Row!.Target)
            .ToDictionary(g => g.Key, g => g.MaxBy(s => s.Confidence)!.Source);
        return [.. suggestions.Select(s => s.Row is { } row && best[row.Target] != s.Source
            ? s with
            {
                BetterSource = best[row.Target],
                Confidence = s.Confidence / 2,
                Reasons = [.. s.Reasons, $"{best[row.Target]} fits {row.Target} better"],
            }
            : s)];
    }

    private static RegisterValue[] ValuesOf(RegisterRow[] rows, string source) =>
        [.. rows.Select(r => r.Find(source)).OfType<RegisterValue>().Where(v => v.Kind != RegisterValueKind.Empty)];
}
