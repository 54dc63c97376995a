using System.Collections.Concurrent;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Probability that k looks read a randomly chosen asset, with the layers of spread kept apart.</summary>
public static class ReadSuccess
{
    private const int MemoLimit = 256;
    private static readonly ConcurrentDictionary<(PolarizationSpread Spread, double SigmaDb), LookTable> Tables = new();
    private static readonly double[] Steps = [0.5, 0.25, 0.125, 0.0625];
    private static readonly (double[] Z, double[] Weight)[] Rules = [.. Steps.Select(Trapezoid)];

    /// <summary>
    /// P = E over s ~ N(0, shared^2) of 1 - (1 - p(m + s))^k, p(m) the success of one look with spread "look" and the polarisation
    /// distribution. Shared are layers (a) class x surface and (b) tag; each look draws (c) anew. One look has the closed form with
    /// sigma = sqrt(shared^2 + look^2); more use the trapezoid rule on s, exponentially accurate for this smooth integrand,
    /// its step matched to the narrowest rise that occurs.
    /// </summary>
    /// <param name="marginDb">Median margin before polarisation loss, dB.</param>
    /// <param name="sharedSigmaDb">Standard deviation that all looks share, dB, 0 or more.</param>
    /// <param name="lookSigmaDb">Standard deviation from look to look, dB, above 0.</param>
    /// <param name="polarization">Distribution of the polarisation loss of a look.</param>
    /// <param name="looks">k, 1 to 1000.</param>
    /// <returns>Probability, 0 to 1; error below 2e-4 (tested against dense integration and Monte Carlo).</returns>
    public static double Probability(
        double marginDb, double sharedSigmaDb, double lookSigmaDb, PolarizationSpread polarization, int looks)
    {
        ArgumentNullException.ThrowIfNull(polarization);
        Guard.InRange(looks, 1, 1000);
        if (looks == 1)
            return polarization.Success(marginDb, Math.Sqrt((sharedSigmaDb * sharedSigmaDb) + (lookSigmaDb * lookSigmaDb)));
        var table = polarization.FixedLossDb is null ? Table(polarization, lookSigmaDb) : null;
        if (sharedSigmaDb < 1e-6)
            return AnyOf(looks, One(table, marginDb, lookSigmaDb, polarization));
        // The best of up to 1000 normals spreads over no less than 0.35 of one normal's sigma.
        var rise = 0.35 * lookSigmaDb / sharedSigmaDb;
        var rule = 0;
        while (rule < Steps.Length - 1 && Steps[rule] > 1.2 * rise)
            rule++;
        var (z, weight) = Rules[rule];
        double sum = 0;
        for (var i = 0; i < z.Length; i++)
            sum += weight[i] * AnyOf(looks, One(table, marginDb + (sharedSigmaDb * z[i]), lookSigmaDb, polarization));
        return Math.Clamp(sum, 0, 1);
    }

    /// <summary>
    /// Margin before polarisation in dB at which <see cref="Probability"/> reaches a wanted value: its inverse, by bisection with
    /// secant steps to 1e-6 dB.
    /// </summary>
    /// <param name="probability">Wanted probability, 1e-6 to 1 - 1e-6.</param>
    /// <param name="sharedSigmaDb">As in <see cref="Probability"/>.</param>
    /// <param name="lookSigmaDb">As in <see cref="Probability"/>.</param>
    /// <param name="polarization">As in <see cref="Probability"/>.</param>
    /// <param name="looks">As in <see cref="Probability"/>.</param>
    public static double MarginDb(
        double probability, double sharedSigmaDb, double lookSigmaDb, PolarizationSpread polarization, int looks)
    {
        ArgumentNullException.ThrowIfNull(polarization);
        Guard.InRange(probability, 1e-6, 1 - 1e-6);
        var sigma = Math.Sqrt((sharedSigmaDb * sharedSigmaDb) + (lookSigmaDb * lookSigmaDb));
        if (looks == 1)
            return -polarization.QuantileDb(1 - probability, sigma);
        // One look needs the most margin; many looks gain at most the floor loss plus some sigmas.
        double low = -12 * sigma, high = 60 + (8 * sigma);
        for (var i = 0; i < 80 && high - low > 1e-6; i++)
        {
            var middle = (low + high) / 2;
            if (Probability(middle, sharedSigmaDb, lookSigmaDb, polarization, looks) < probability)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }

    private static double One(LookTable? table, double marginDb, double sigmaDb, PolarizationSpread polarization) =>
        table is null ? polarization.Success(marginDb, sigmaDb) : table.At(marginDb);

    private static double AnyOf(int looks, double one)
    {
        double miss = 1 - one, all = 1;
        for (var k = looks; k > 0; k >>= 1)
        {
            if ((k & 1) != 0)
                all *= miss;
            miss *= miss;
        }

        return 1 - all;
    }

    private static LookTable Table(PolarizationSpread polarization, double sigmaDb)
    {
        var key = (polarization, sigmaDb);
        if (Tables.TryGetValue(key, out var table))
            return table;
        table = new LookTable(polarization, sigmaDb);
        if (Tables.Count < MemoLimit)
            Tables.TryAdd(key, table);
        return table;
    }

    private static (double[] Z, double[] Weight) Trapezoid(double step)
    {
        var half = (int)Math.Ceiling(5.5 / step);
        double[] z = [.. Enumerable.Range(-half, (2 * half) + 1).Select(i => i * step)];
        var total = z.Sum(StandardNormal.Density);
        return (z, [.. z.Select(x => StandardNormal.Density(x) / total)]);
    }
}
