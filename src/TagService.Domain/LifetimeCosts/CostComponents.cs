using TagService.Domain.LifetimeCosts.Components;

namespace TagService.Domain.LifetimeCosts;

/// <summary>The parts of the lifetime cost, in the order people read them. A new part is one file and one line here.</summary>
public static class CostComponents
{
    /// <summary>All parts.</summary>
    public static IReadOnlyList<ICostComponent> All { get; } =
    [
        new TagAndConsumables(),
        new FirstApplication(),
        new ReplacementTags(),
        new ReapplicationLabour(),
        new ReadingLabour(),
        new EndOfLife(),
    ];

    /// <summary>Present value of all parts.</summary>
    public static double Total(in CostCase c)
    {
        double sum = 0;
        foreach (var component in All)
            sum += component.PresentValue(c);
        return sum;
    }
}
