using System.Collections.Concurrent;
using TagService.Domain.Reliability;
using TagService.Domain.Units;

namespace TagService.Domain.LifetimeCosts;

/// <summary>
/// Discounted renewals for ranking many candidates: the renewal function of one shape, tabulated once in units of the
/// scale. With x = T/eta and rho = r eta, D(T) = sum over k of (-rho)^k / k! times the k-th moment of dm up to x; the
/// moments are tabulated, so one D costs some thirty multiplications. Within 1e-3 of a visit of
/// <see cref="Renewal.Expected"/> (tested).
/// </summary>
public sealed class RenewalTable
{
    private const double ReachInScales = 12;
    private const int Steps = 960;

    // Fourteen terms leave at most 2^14/14! = 2e-7 of m up to this rT; beyond it the sum is taken term by term.
    private const double LargestDiscount = 2;
    private const int Moments = 14;
    private const double Width = ReachInScales / Steps;

    private static readonly ConcurrentDictionary<double, RenewalTable> Tables = new();

    private readonly double[] _m;
    private readonly double[] _moments = new double[(Steps + 1) * Moments];
    private readonly double _meanInScales;

    private RenewalTable(double shape)
    {
        _m = Renewal.Grid(new Weibull(shape, 1), ReachInScales, Steps);
        _meanInScales = MathNet.Numerics.SpecialFunctions.Gamma(1 + (1 / shape));
        for (var i = 1; i <= Steps; i++)
        {
            var power = _m[i] - _m[i - 1];
            for (var k = 0; k < Moments; k++, power *= (i - 0.5) * Width)
                _moments[(i * Moments) + k] = _moments[((i - 1) * Moments) + k] + power;
        }
    }

    /// <summary>The table of one shape, 0.3 to 20; made at first use.</summary>
    public static RenewalTable ForShape(double shape) =>
        Tables.TryGetValue(shape, out var table)
            ? table
            : Tables.GetOrAdd(Guard.InRange(shape, 0.3, 20), static s => new RenewalTable(s));

    /// <summary>D(T) for scale <paramref name="scaleYears"/>; beyond twelve scales renewals come at the steady rate 1/mean.</summary>
    /// <param name="scaleYears">Weibull scale in years, above 0.</param>
    /// <param name="horizonYears">T in years, at least 0.</param>
    /// <param name="continuousRate">r per year.</param>
    public double Discounted(double scaleYears, double horizonYears, double continuousRate)
    {
        Guard.Positive(scaleYears);
        Guard.NotNegative(horizonYears);
        var x = Math.Min(horizonYears / scaleYears, ReachInScales);
        var rho = continuousRate * scaleYears;
        var within = Math.Abs(rho * x) <= LargestDiscount ? BySeries(x, rho) : BySum(x, rho);
        var from = ReachInScales * scaleYears;
        if (horizonYears <= from)
            return within;
        var steady = 1 / (_meanInScales * scaleYears);
        return within + (continuousRate == 0
            ? steady * (horizonYears - from)
            : steady * (Math.Exp(-continuousRate * from) - Math.Exp(-continuousRate * horizonYears)) / continuousRate);
    }

    private double BySeries(double x, double rho)
    {
        var cell = Math.Min((int)(x / Width), Steps - 1);
        var part = (x / Width) - cell;
        var low = _moments.AsSpan(cell * Moments, Moments);
        var high = _moments.AsSpan((cell + 1) * Moments, Moments);
        double sum = 0, factor = 1;
        for (var k = 0; k < Moments; k++)
        {
            sum += factor * (low[k] + ((high[k] - low[k]) * part));
            factor *= -rho / (k + 1);
        }

        return sum;
    }

    // exp(-r (i - 1/2) h) as a running product: one exp, then multiplications.
    private double BySum(double x, double rho)
    {
        var whole = Math.Min((int)(x / Width), Steps);
        var factor = Math.Exp(-rho * Width);
        var discount = Math.Exp(-rho * Width / 2);
        double sum = 0;
        for (var i = 1; i <= whole; i++, discount *= factor)
            sum += discount * (_m[i] - _m[i - 1]);
        return whole < Steps ? sum + (discount * (_m[whole + 1] - _m[whole]) * ((x / Width) - whole)) : sum;
    }
}
