using TagService.Domain.Reference;

namespace TagService.Domain.Fitting;

/// <summary>A tool or consumable that fitters bring along.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Kind">Is it used up?</param>
/// <param name="ForSteps">Ids of the fitter's steps that need it; empty: every round needs it.</param>
/// <param name="PerTag">How much of it one such tag uses up, in <paramref name="Unit"/>; 0 for tools.</param>
/// <param name="Unit">Unit of <paramref name="PerTag"/>; empty for tools.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record KitItem(
    string Id, string Name, KitKind Kind, IReadOnlyList<string> ForSteps, double PerTag, string Unit, string Source);

/// <summary>What becomes of a thing that is brought along.</summary>
public enum KitKind
{
    /// <summary>Comes back.</summary>
    Tool,

    /// <summary>Is used up.</summary>
    Consumable,

    /// <summary>Protects the fitter.</summary>
    Protection,
}

/// <summary>What fitters bring along.</summary>
public static class KitItems
{
    /// <summary>The table.</summary>
    public static ReferenceTable<KitItem> Table { get; } = new("kit-items.data.json", k => k.Id);

    /// <summary>All rows in file order.</summary>
    public static IReadOnlyList<KitItem> All => Table.All;

    /// <summary>What a list of steps needs, in file order; things that every round needs included.</summary>
    /// <param name="stepIds">Ids of the steps.</param>
    public static IReadOnlyList<KitItem> For(IReadOnlyCollection<string> stepIds)
    {
        ArgumentNullException.ThrowIfNull(stepIds);
        return [.. All.Where(k => k.ForSteps.Count == 0 || k.ForSteps.Any(stepIds.Contains))];
    }
}
