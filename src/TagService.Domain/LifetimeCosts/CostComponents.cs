using TagService.Domain.LifetimeCosts.Components;

namespace TagService.Domain.LifetimeCosts;

/// <summary>The parts of the lifetime cost, in the order people read them. A new part is one file and, here, one line in each list.</summary>
public static class CostComponents
{
    private static readonly TagAndConsumables Tag = new();
    private static readonly FirstApplication First = new();
    private static readonly ReplacementTags Replacements = new();
    private static readonly ReapplicationLabour Reapplication = new();
    private static readonly ReadingLabour Reading = new();
    private static readonly EndOfLife End = new();

    /// <summary>All parts.</summary>
    public static IReadOnlyList<ICostComponent> All { get; } = [Tag, First, Replacements, Reapplication, Reading, End];

    /// <summary>
    /// Present value of all parts, added in their order. Called for every pair of class and fixing: written out, because the compiler then
    /// sees through the calls; that it is the sum over <see cref="All"/> to the last bit is tested.
    /// </summary>
    public static double Total(in CostCase c) =>
        Tag.PresentValue(c)
        + First.PresentValue(c)
        + Replacements.PresentValue(c)
        + Reapplication.PresentValue(c)
        + Reading.PresentValue(c)
        + End.PresentValue(c);
}
