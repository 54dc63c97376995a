using TagService.Domain.Reference;

namespace TagService.Domain.Suitability;

/// <summary>The cautions: hazard, precaution, who decides. None claims to be complete.</summary>
public static class Cautions
{
    /// <summary>The table.</summary>
    public static ReferenceTable<Caution> Table { get; } = new("cautions.data.json", c => c.Id);

    /// <summary>All cautions in file order, the gravest first.</summary>
    public static IReadOnlyList<Caution> All => Table.All;
}
