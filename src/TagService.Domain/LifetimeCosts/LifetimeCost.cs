using TagService.Domain.Reliability;

namespace TagService.Domain.LifetimeCosts;

/// <summary>Present value of one tag choice with its parts and the spread of the expected cost.</summary>
/// <param name="PresentValue">Sum of the parts.</param>
/// <param name="P10">Lower end: one in ten such estimates is cheaper, from the uncertain life and price.</param>
/// <param name="P90">Upper end.</param>
/// <param name="Currency">ISO 4217 code.</param>
/// <param name="Components">The parts.</param>
public sealed record LifetimeCost(
    double PresentValue, double P10, double P90, string Currency, IReadOnlyList<CostShare> Components)
{
    /// <summary>Standard normal quantile of 90 %.</summary>
    private const double Z90 = 1.2815515655446004;

    /// <summary>
    /// Works the parts out and bounds them: the life scale moved by plus and minus 1.28 of its log standard deviation
    /// and the tag price to its low and high, each alone, their shifts added in quadrature. This is uncertainty of the
    /// expected cost, not the spread of one asset's fate.
    /// </summary>
    /// <param name="c">The case at its central values.</param>
    /// <param name="life">The life estimate behind it.</param>
    /// <param name="lowPrice">Low tag price.</param>
    /// <param name="highPrice">High tag price.</param>
    /// <param name="currency">ISO 4217 code.</param>
    public static LifetimeCost Of(
        in CostCase c, LifeEstimate life, double lowPrice, double highPrice, string currency)
    {
        var parts = new CostShare[CostComponents.All.Count];
        double total = 0;
        for (var i = 0; i < parts.Length; i++)
        {
            var component = CostComponents.All[i];
            var value = component.PresentValue(c);
            parts[i] = new(component.Id, component.Name, value, component.Working(c));
            total += value;
        }

        var stretch = Math.Exp(Z90 * life.LogScaleSigma);
        var longer = CostComponents.Total(c.With(c.Life with { ScaleYears = c.Life.ScaleYears * stretch }));
        var shorter = CostComponents.Total(c.With(c.Life with { ScaleYears = c.Life.ScaleYears / stretch }));
        var cheap = CostComponents.Total(c with { TagPrice = lowPrice });
        var dear = CostComponents.Total(c with { TagPrice = highPrice });
        return new(
            total,
            total - Hypotenuse(total - longer, total - cheap),
            total + Hypotenuse(shorter - total, dear - total),
            currency,
            parts);
    }

    private static double Hypotenuse(double a, double b) => Math.Sqrt((a * a) + (b * b));
}

/// <summary>One part of a lifetime cost.</summary>
/// <param name="Id">Component id.</param>
/// <param name="Name">Plain name.</param>
/// <param name="PresentValue">Present value.</param>
/// <param name="Working">How it came about.</param>
public sealed record CostShare(string Id, string Name, double PresentValue, string Working);
