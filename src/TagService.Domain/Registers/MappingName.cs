using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Registers;

/// <summary>What registers call the columns that feed one field.</summary>
/// <param name="Target">Pointer of the field.</param>
/// <param name="Names">Names, several languages.</param>
/// <param name="Source">Where they come from.</param>
public sealed record MappingName(string Target, IReadOnlyList<string> Names, string Source)
{
    /// <summary>All rows, by target.</summary>
    public static ReferenceTable<MappingName> Table { get; } = new("mapping-names.data.json", n => n.Target);

    private const double WithinName = 0.75;

    private static readonly PhraseIndex Index = new(
        Table.All.SelectMany((row, i) => row.Names.Append(LastOf(row.Target)).Select(n => (n, i, Languages.Any))));

    /// <summary>
    /// The fields that a column's name points to, best first, with trust from 0 to 1 (planning values): a whole name counts in
    /// full, a phrase within a longer name three quarters, spelling mistakes and compounds a little less.
    /// </summary>
    internal static IReadOnlyList<(MappingTarget Target, string Phrase, double Trust)> Find(string columnName)
    {
        var text = Spaced(columnName);
        Span<PhraseHit> hits = stackalloc PhraseHit[16];
        hits = hits[..Index.Find(text, hits)];
        Span<TextToken> tokens = stackalloc TextToken[TextToken.Most];
        var words = TextToken.Split(TextFold.Fold(text), tokens);
        var found = new List<(MappingTarget, string, double)>();
        foreach (var hit in hits)
        {
            var trust = PhraseHit.Trust(hit.Quality) * (hit.Count >= words ? 1 : WithinName + (0.2 * (hit.Count - 1)));
            foreach (var row in Index[hit.Phrase].Rows)
                found.Add((MappingTargets.Find(Table.All[row].Target)!, Index[hit.Phrase].Text, Math.Min(1, trust)));
        }

        return [.. found.GroupBy(f => f.Item1).Select(g => g.MaxBy(f => f.Item3)).OrderByDescending(f => f.Item3)];
    }

    /// <summary>Words of a technical name apart: <c>wallThickness_mm</c> becomes <c>wall Thickness mm</c>.</summary>
    internal static string Spaced(string name)
    {
        var text = new System.Text.StringBuilder(name.Length + 8);
        for (var i = 0; i < name.Length; i++)
        {
            if (i > 0 && char.IsUpper(name[i]) && char.IsLower(name[i - 1]))
                text.Append(' ');
            // Brackets hold units, which are no aside of the name.
            text.Append(name[i] is '_' or '.' or '(' or ')' or '[' or ']' or '/' ? ' ' : name[i]);
        }

        return text.ToString();
    }

    private static string LastOf(string pointer) => Spaced(pointer[(pointer.LastIndexOf('/') + 1)..]);
}
