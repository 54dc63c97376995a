using TagService.Domain.Places;

namespace TagService.Storage.Places;

/// <summary>Brings the rows of names in line with a place's name and aliases.</summary>
internal static class PlaceNames
{
    /// <summary>Rows that stay are kept, so that a name written differently is no delete and insert under the same key.</summary>
    public static void Bring<TRow>(List<TRow> rows, string name, IEnumerable<string> aliases, Func<string, bool, TRow> create)
        where TRow : PlaceNameRow
    {
        var wanted = new Dictionary<string, bool>(StringComparer.Ordinal) { [PlaceName.Fold(name)] = false };
        foreach (var alias in aliases)
            wanted[PlaceName.Fold(alias)] = true;
        rows.RemoveAll(r => !wanted.ContainsKey(r.Folded));
        foreach (var row in rows)
        {
            row.IsAlias = wanted[row.Folded];
            wanted.Remove(row.Folded);
        }

        rows.AddRange(wanted.Select(w => create(w.Key, w.Value)));
    }
}
