using System.Collections.Frozen;
using TagService.Domain.Reference;
using TagService.Domain.Words;

namespace TagService.Domain.Registers;

/// <summary>The units that registers use.</summary>
public static class RegisterUnits
{
    /// <summary>All rows, by id.</summary>
    public static ReferenceTable<RegisterUnit> Table { get; } = new("register-units.data.json", u => u.Id);

    private static readonly FrozenDictionary<(UnitDimension, string), RegisterUnit> Exact =
        ByName(static n => n);

    private static readonly FrozenDictionary<(UnitDimension, string), RegisterUnit> Folded =
        ByName(TextFold.Fold);

    /// <summary>The unit of a dimension that a symbol or word means: letter by letter first, then folded; null if none.</summary>
    /// <param name="text">For example <c>mm</c>, <c>°F</c>, <c>Zoll</c>, <c>"</c>.</param>
    /// <param name="dimension">What it has to measure: <c>m</c> is a metre here and nothing there.</param>
    public static RegisterUnit? Find(string text, UnitDimension dimension)
    {
        var trimmed = text.Trim();
        if (Exact.TryGetValue((dimension, trimmed), out var unit))
            return unit;
        var folded = TextFold.Fold(trimmed);
        return folded.Length > 0 && Folded.TryGetValue((dimension, folded), out unit) ? unit : null;
    }

    /// <summary>Ids of the units of a dimension, in the table's order.</summary>
    public static IEnumerable<string> IdsOf(UnitDimension dimension) =>
        Table.All.Where(u => u.Dimension == dimension).Select(u => u.Id);

    private static FrozenDictionary<(UnitDimension, string), RegisterUnit> ByName(Func<string, string> form)
    {
        var byName = new Dictionary<(UnitDimension, string), RegisterUnit>();
        foreach (var unit in Table.All)
        {
            foreach (var name in unit.Names.Prepend(unit.Id))
            {
                var key = form(name);
                if (key.Length > 0)
                    byName.TryAdd((unit.Dimension, key), unit);
            }
        }

        return byName.ToFrozenDictionary();
    }
}
