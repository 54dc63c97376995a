using TagService.Domain.Units;

namespace TagService.Domain.Reliability;

/// <summary>
/// The two-parameter Weibull life distribution. Shape b is a pure number above 0, scale eta is in the unit of time
/// (years here). Source: Weibull (1951), J. Appl. Mech. 18, 293-297; NIST/SEMATECH e-Handbook 8.1.6.2.
/// All functions are closed forms, accurate to a few units in the last place; tested against the NIST 8.4.1.3 fit.
/// </summary>
/// <param name="Shape">Shape b, above 0: below 1 early failures, 1 constant rate, above 1 wear-out.</param>
/// <param name="ScaleYears">Scale eta in years, above 0: 63.2 % have failed by then.</param>
public readonly record struct Weibull(double Shape, double ScaleYears)
{
    /// <summary>S(t) = exp(-(t/eta)^b), the probability of outliving <paramref name="years"/>.</summary>
    /// <param name="years">Age in years, at least 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite age.</exception>
    public double Survival(double years) =>
        Math.Exp(-Math.Pow(Guard.NotNegative(years) / ScaleYears, Shape));

    /// <summary>F(t) = 1 - S(t), computed with care near 0 (expm1).</summary>
    /// <param name="years">Age in years, at least 0.</param>
    public double Cumulative(double years)
    {
        var x = Math.Pow(Guard.NotNegative(years) / ScaleYears, Shape);
        // -expm1(-x): the series keeps the digits that 1 - exp(-x) loses for small x.
        return x < 1e-5 ? x - (x * x / 2) : 1 - Math.Exp(-x);
    }

    /// <summary>t with F(t) = p: eta (-ln(1-p))^(1/b), in years. B10 life is p = 0.1, the median p = 0.5.</summary>
    /// <param name="probability">p, at least 0 and below 1.</param>
    public double Quantile(double probability)
    {
        Guard.InRange(probability, 0, Math.BitDecrement(1));
        return ScaleYears * Math.Pow(-Math.Log(1 - probability), 1 / Shape);
    }

    /// <summary>Median life in years: eta (ln 2)^(1/b).</summary>
    public double MedianYears => ScaleYears * Math.Pow(Math.Log(2), 1 / Shape);
}
