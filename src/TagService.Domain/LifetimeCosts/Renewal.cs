using TagService.Domain.Reliability;
using TagService.Domain.Units;

namespace TagService.Domain.LifetimeCosts;

/// <summary>Expected renewals and discounted renewals within a horizon.</summary>
/// <param name="Renewals">m(T), expected number of failures replaced up to T.</param>
/// <param name="DiscountedRenewals">D(T), each counted as exp(-r t).</param>
public readonly record struct RenewalResult(double Renewals, double DiscountedRenewals);

/// <summary>
/// The renewal function of Weibull lives: m(T) = F(T) + integral of m(T-s) dF(s), and
/// D(T) = integral of exp(-r t) dm(t).
/// </summary>
public static class Renewal
{
    /// <summary>
    /// Midpoint discretisation of the renewal equation (Xie, 1989, Commun. Stat. Simul. Comput. 18; printed in Tijms,
    /// A First Course in Stochastic Models, 2003, sec. 8.1):
    /// M_i = [F(ih) + sum_(j&lt;i) (M_j - M_(j-1)) F((i-j+1/2)h) - M_(i-1) F(h/2)] / (1 - F(h/2)),
    /// with one Richardson step from h to h/2. D sums exp(-r (i-1/2)h)(M_i - M_(i-1)).
    /// Cost grows with steps^2. Tested against closed forms and a 15-digit power-series table
    /// (see the tests): within 1e-6 for shapes from 1, 1e-4 below, at 240 steps.
    /// </summary>
    /// <param name="life">Weibull life; shape 0.3 to 20, scale above 0.</param>
    /// <param name="horizonYears">T in years, at least 0.</param>
    /// <param name="continuousRate">r per year; 0 gives m twice.</param>
    /// <param name="steps">Steps of the coarse grid, 8 to 100,000.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument outside its range.</exception>
    public static RenewalResult Expected(Weibull life, double horizonYears, double continuousRate, int steps = 240)
    {
        Guard.InRange(life.Shape, 0.3, 20, nameof(life));
        Guard.Positive(life.ScaleYears, nameof(life));
        Guard.NotNegative(horizonYears);
        Guard.Finite(continuousRate);
        Guard.InRange(steps, 8, 100_000);
        if (horizonYears == 0)
            return default;
        var coarse = Midpoint(life, horizonYears, continuousRate, steps);
        var fine = Midpoint(life, horizonYears, continuousRate, steps * 2);
        return new(
            fine.Renewals + ((fine.Renewals - coarse.Renewals) / 3),
            fine.DiscountedRenewals + ((fine.DiscountedRenewals - coarse.DiscountedRenewals) / 3));
    }

    /// <summary>M_1 .. M_steps on a grid of width horizon/steps, the midpoint scheme without extrapolation.</summary>
    internal static double[] Grid(Weibull life, double horizonYears, int steps)
    {
        var h = horizonYears / steps;
        var mid = new double[steps + 1];
        for (var i = 1; i <= steps; i++)
            mid[i] = life.Cumulative((i - 0.5) * h);
        var m = new double[steps + 1];
        for (var i = 1; i <= steps; i++)
        {
            var sum = life.Cumulative(i * h) - (m[i - 1] * mid[1]);
            for (var j = 1; j < i; j++)
                sum += (m[j] - m[j - 1]) * mid[i - j + 1];
            m[i] = sum / (1 - mid[1]);
        }

        return m;
    }

    private static RenewalResult Midpoint(Weibull life, double horizonYears, double rate, int steps)
    {
        var m = Grid(life, horizonYears, steps);
        var h = horizonYears / steps;
        double discounted = 0;
        for (var i = 1; i <= steps; i++)
            discounted += Math.Exp(-rate * (i - 0.5) * h) * (m[i] - m[i - 1]);
        return new(m[steps], discounted);
    }
}
