using TagService.Domain.Reference;

namespace TagService.Domain.Suitability;

/// <summary>The steps that fitting instructions are put together from.</summary>
public static class FittingSteps
{
    /// <summary>The table.</summary>
    public static ReferenceTable<FittingStep> Table { get; } = new("fitting-steps.data.json", s => s.Id);

    /// <summary>All steps in file order.</summary>
    public static IReadOnlyList<FittingStep> All => Table.All;
}
