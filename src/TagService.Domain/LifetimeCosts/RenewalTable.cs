using System.Collections.Concurrent;
using TagService.Domain.Reliability;
using TagService.Domain.Units;

namespace TagService.Domain.LifetimeCosts;

/// <summary>
/// Discounted renewals for ranking many candidates: the renewal function of one shape, tabulated once in units of the
/// scale, then summed with the discount of the question. Within 1e-3 of a visit of <see cref="Renewal.Expected"/>
/// (tested), some hundred times faster.
/// </summary>
public sealed class RenewalTable
{
    private const double ReachInScales = 12;
    private const int Steps = 960;

    private static readonly ConcurrentDictionary<double, RenewalTable> Tables = new();

    private readonly double[] _m;
    private readonly double _meanInScales;

    private RenewalTable(double shape)
    {
        _m = Renewal.Grid(new Weibull(shape, 1), ReachInScales, Steps);
        _meanInScales = MathNet.Numerics.SpecialFunctions.Gamma(1 + (1 / shape));
    }

    /// <summary>The table of one shape, 0.3 to 20; made at first use.</summary>
    public static RenewalTable ForShape(double shape) =>
        Tables.GetOrAdd(Guard.InRange(shape, 0.3, 20), static s => new RenewalTable(s));

    /// <summary>D(T) for scale <paramref name="scaleYears"/>; beyond twelve scales renewals come at the steady rate 1/mean.</summary>
    /// <param name="scaleYears">Weibull scale in years, above 0.</param>
    /// <param name="horizonYears">T in years, at least 0.</param>
    /// <param name="continuousRate">r per year.</param>
    public double Discounted(double scaleYears, double horizonYears, double continuousRate)
    {
        Guard.Positive(scaleYears);
        Guard.NotNegative(horizonYears);
        var width = ReachInScales / Steps * scaleYears;
        var whole = (int)Math.Min(horizonYears / width, Steps);
        // exp(-r (i - 1/2) h) as a running product: one exp, then multiplications.
        var factor = Math.Exp(-continuousRate * width);
        var discount = Math.Exp(-continuousRate * width / 2);
        double sum = 0;
        for (var i = 1; i <= whole; i++, discount *= factor)
            sum += discount * (_m[i] - _m[i - 1]);
        if (whole < Steps)
            return sum + (discount * (_m[whole + 1] - _m[whole]) * ((horizonYears / width) - whole));
        var from = ReachInScales * scaleYears;
        var steady = 1 / (_meanInScales * scaleYears);
        return sum + (continuousRate == 0
            ? steady * (horizonYears - from)
            : steady * (Math.Exp(-continuousRate * from) - Math.Exp(-continuousRate * horizonYears)) / continuousRate);
    }
}
