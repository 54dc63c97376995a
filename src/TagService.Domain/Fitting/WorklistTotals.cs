namespace TagService.Domain.Fitting;

/// <summary>Tags of one class to carry.</summary>
/// <param name="TagClassId">The class.</param>
/// <param name="TagClassName">Its name.</param>
/// <param name="ToFit">Assets that get one.</param>
/// <param name="Spares">Spares for tags that fail the acceptance check.</param>
public sealed record TagsToCarry(string TagClassId, string TagClassName, int ToFit, int Spares)
{
    /// <summary>Tags to carry, spares included.</summary>
    public int Tags => ToFit + Spares;
}

/// <summary>One thing to bring.</summary>
/// <param name="Item">The thing.</param>
/// <param name="Quantity">How much of it is used up in all, in the item's unit; 0 for what comes back.</param>
/// <param name="ForAssets">For how many of the assets it is needed.</param>
public sealed record KitToBring(KitItem Item, double Quantity, int ForAssets);

/// <summary>What a round of fitting takes along and how long it takes.</summary>
/// <param name="Assets">Assets that get a tag.</param>
/// <param name="Minutes">Minutes of work at the assets, without the way and without waiting for bonds.</param>
/// <param name="Tags">Tags by class, in ordinal order of their ids.</param>
/// <param name="Kit">Tools, consumables and protection, in the order of the table.</param>
public sealed record WorklistTotals(int Assets, double Minutes, IReadOnlyList<TagsToCarry> Tags, IReadOnlyList<KitToBring> Kit)
{
    /// <summary>
    /// Sums a list of plans. Spares of a class: tags to fit times the planning share of tags that fail the check, rounded up, and at least
    /// one. Consumables: the amount for one tag times the assets that need it, with as many spares as tags have.
    /// </summary>
    /// <param name="plans">The plans.</param>
    public static WorklistTotals Of(IReadOnlyCollection<PlannedFitting> plans)
    {
        ArgumentNullException.ThrowIfNull(plans);
        return new(plans.Count, plans.Sum(p => p.Choice.Minutes), Carry(plans), Bring(plans));
    }

    /// <summary>Spares for a number of tags of one class.</summary>
    /// <param name="toFit">Tags to fit, 0 or more.</param>
    public static int Spares(int toFit) => toFit == 0
        ? 0
        : Math.Max((int)FittingPlanning.LeastSpares, (int)Math.Ceiling(toFit * FittingPlanning.AcceptanceFailureShare));

    private static IReadOnlyList<TagsToCarry> Carry(IEnumerable<PlannedFitting> plans) =>
    [
        .. plans.GroupBy(p => p.TagClass.Id, StringComparer.Ordinal)
            .OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new TagsToCarry(g.Key, g.First().TagClass.Name, g.Count(), Spares(g.Count()))),
    ];

    private static IReadOnlyList<KitToBring> Bring(IReadOnlyCollection<PlannedFitting> plans)
    {
        var needed = plans.SelectMany(p => p.Kit).GroupBy(k => k.Id, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Count(), StringComparer.Ordinal);
        return
        [
            .. KitItems.All.Where(k => needed.ContainsKey(k.Id))
                .Select(k => new KitToBring(k, k.PerTag * (needed[k.Id] + (k.PerTag > 0 ? Spares(needed[k.Id]) : 0)), needed[k.Id])),
        ];
    }
}
