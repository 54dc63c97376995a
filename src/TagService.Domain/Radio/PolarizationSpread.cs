using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>
/// Polarisation loss of one look as a distribution: the angle psi between reader and tag is uniform between two limits, and
/// the loss is -10 log10(cos^2 psi + x sin^2 psi) with cross-polar floor x. A circular reader loses 3.01 dB to a linear tag
/// at any roll, so its distribution is a point. Source: polarisation loss factor, "RFID Handbook", CRC 2008, ch. 10 (read);
/// the uniform angle and the floor of -20 dB are planning values.
/// </summary>
public sealed class PolarizationSpread
{
    /// <summary>Cross-polar floor as a power ratio: -20 dB, common of simple reader panels (planning value).</summary>
    public const double CrossPolarFloor = 0.01;

    /// <summary>Half-width in degrees of what counts as "crossed most of the time" (planning value).</summary>
    public const double CrossedWithinDegrees = 15;

    private const int Nodes = 32;
    private const double GridStepDb = 0.25;
    private const int GridSize = 61;
    private readonly double[] _lossDb;
    private readonly double[] _weight;
    private readonly Lazy<double[][]> _grid;

    private PolarizationSpread(string description, double fromDegrees, double toDegrees)
    {
        Description = description;
        (_lossDb, _weight) = OverAngles(fromDegrees, toDegrees);
        _grid = new(() => [Tabulate(0.1), Tabulate(0.5), Tabulate(0.9)]);
        MeanDb = _lossDb.Zip(_weight, (l, w) => l * w).Sum();
        StandardDeviationDb = Math.Sqrt(_lossDb.Zip(_weight, (l, w) => w * (l - MeanDb) * (l - MeanDb)).Sum());
    }

    private PolarizationSpread(string description, double fixedLossDb)
    {
        Description = description;
        FixedLossDb = MeanDb = fixedLossDb;
        _lossDb = [fixedLossDb];
        _weight = [1];
        _grid = new(() => []);
    }

    /// <summary>Circular reader, linear or dual tag: half the power, whatever the roll.</summary>
    public static PolarizationSpread Circular { get; } = new("circular reader: half the power at any roll", 10 * Math.Log10(2));

    /// <summary>Linear reader with the tag kept parallel, or a dual tag with one axis kept parallel.</summary>
    public static PolarizationSpread Aligned { get; } = new("linear reader, axis kept parallel", 0);

    /// <summary>Linear reader, linear tag, any roll: angle uniform over 0 to 90 degrees.</summary>
    public static PolarizationSpread AnyRoll { get; } = new("linear reader, tag at any roll: angle uniform over 0-90 degrees", 0, 90);

    /// <summary>Linear reader, linear tag, crossed: angle uniform over 75 to 90 degrees.</summary>
    public static PolarizationSpread Crossed { get; } = new("linear reader, tag crossed: angle uniform over 75-90 degrees", 90 - CrossedWithinDegrees, 90);

    /// <summary>Linear reader, dual tag, any roll: its better axis is never more than 45 degrees off.</summary>
    public static PolarizationSpread DualAnyRoll { get; } = new("linear reader, dual tag: the better axis within 0-45 degrees", 0, 45);

    /// <summary>All distributions in use.</summary>
    public static IReadOnlyList<PolarizationSpread> All { get; } = [Circular, Aligned, AnyRoll, Crossed, DualAnyRoll];

    /// <summary>What it says in words.</summary>
    public string Description { get; }

    /// <summary>The loss in dB where it does not vary; absent where it is a distribution.</summary>
    public double? FixedLossDb { get; }

    /// <summary>Mean loss, dB.</summary>
    public double MeanDb { get; }

    /// <summary>Standard deviation of the loss, dB.</summary>
    public double StandardDeviationDb { get; }

    /// <summary>The distribution for reader, tag and their orientation.</summary>
    public static PolarizationSpread For(ReaderPolarization reader, TagPolarization tag, TagOrientation orientation) =>
        (reader, tag, orientation) switch
        {
            (ReaderPolarization.Circular, _, _) => Circular,
            (_, TagPolarization.Dual, TagOrientation.Any) => DualAnyRoll,
            (_, TagPolarization.Dual, _) => Aligned,
            (_, _, TagOrientation.Aligned) => Aligned,
            (_, _, TagOrientation.Crossed) => Crossed,
            _ => AnyRoll,
        };

    /// <summary>Loss in dB at one angle: -10 log10(cos^2 + 0.01 sin^2).</summary>
    /// <param name="angleDegrees">Angle between the axes, 0 to 90 degrees.</param>
    public static double LossDb(double angleDegrees)
    {
        var c = Math.Cos(Guard.InRange(angleDegrees, 0, 90) * Math.PI / 180);
        return -10 * Math.Log10((c * c) + (CrossPolarFloor * (1 - (c * c))));
    }

    /// <summary>
    /// P(margin - loss + sigma Z &gt; 0), Z standard normal: mean of Phi((margin - loss)/sigma) over the angle by
    /// 32-point Gauss-Legendre; error below 1e-4 for sigma of at least 1 dB (tested against dense summation).
    /// </summary>
    /// <param name="marginDb">Margin before polarisation, dB.</param>
    /// <param name="sigmaDb">Standard deviation, dB, above 0.</param>
    public double Success(double marginDb, double sigmaDb)
    {
        if (FixedLossDb is { } loss)
            return StandardNormal.Cumulative((marginDb - loss) / sigmaDb);
        double sum = 0;
        for (var i = 0; i < _lossDb.Length; i++)
            sum += _weight[i] * StandardNormal.Cumulative((marginDb - _lossDb[i]) / sigmaDb);
        return sum;
    }

    /// <summary>Derivative of <see cref="Success"/> in the margin, per dB.</summary>
    public double SuccessSlope(double marginDb, double sigmaDb)
    {
        double sum = 0;
        for (var i = 0; i < _lossDb.Length; i++)
            sum += _weight[i] * StandardNormal.Density((marginDb - _lossDb[i]) / sigmaDb);
        return sum / sigmaDb;
    }

    /// <summary>
    /// Quantile of sigma Z - loss in dB: what to add to the level before polarisation. Closed form where the loss is fixed,
    /// else bracketed bisection with Newton steps to 1e-9 dB on <see cref="Success"/>.
    /// </summary>
    /// <param name="probability">Probability below the quantile, 1e-6 to 1 - 1e-6.</param>
    /// <param name="sigmaDb">Standard deviation, dB, above 0.</param>
    public double QuantileDb(double probability, double sigmaDb)
    {
        Guard.InRange(probability, 1e-6, 1 - 1e-6);
        Guard.Positive(sigmaDb);
        if (FixedLossDb is { } loss)
            return (sigmaDb * StandardNormal.Quantile(probability)) - loss;
        double low = -_lossDb.Max() - (6 * sigmaDb), high = 6 * sigmaDb;
        var x = -MeanDb;
        for (var i = 0; i < 100 && high - low > 1e-9; i++)
        {
            // P(sigma Z - loss < x) = 1 - Success(-x).
            var error = 1 - Success(-x, sigmaDb) - probability;
            if (error > 0)
                high = x;
            else
                low = x;
            var next = x - (error / SuccessSlope(-x, sigmaDb));
            next = next > low && next < high ? next : (low + high) / 2;
            if (Math.Abs(next - x) < 1e-10)
                return next;
            x = next;
        }

        return x;
    }

    /// <summary>
    /// The 10 %, 50 % and 90 % quantiles of sigma Z - loss, dB, from a table over sigma (2 to 15 dB in steps of 0.25, linear
    /// between; error below 0.005 dB, tested against <see cref="QuantileDb"/>), so that ranking many classes costs nothing.
    /// </summary>
    internal (double Low, double Middle, double High) DecileOffsets(double sigmaDb)
    {
        if (FixedLossDb is { } loss)
            return (-loss - (Decile * sigmaDb), -loss, -loss + (Decile * sigmaDb));
        var at = sigmaDb / GridStepDb;
        if (at >= GridSize - 1 || at < 8)
            return (QuantileDb(0.1, sigmaDb), QuantileDb(0.5, sigmaDb), QuantileDb(0.9, sigmaDb));
        var i = (int)at;
        var w = at - i;
        var g = _grid.Value;
        return (Between(g[0]), Between(g[1]), Between(g[2]));

        double Between(double[] row) => row[i] + (w * (row[i + 1] - row[i]));
    }

    /// <summary>Phi^-1(0.9).</summary>
    internal const double Decile = 1.2815515655446004;

    private double[] Tabulate(double probability) =>
        [.. Enumerable.Range(0, GridSize).Select(i => QuantileDb(probability, Math.Max(i * GridStepDb, 0.1)))];

    private static (double[] LossDb, double[] Weight) OverAngles(double fromDegrees, double toDegrees)
    {
        var rule = new MathNet.Numerics.Integration.GaussLegendreRule(fromDegrees, toDegrees, Nodes);
        var loss = new double[Nodes];
        var weight = new double[Nodes];
        for (var i = 0; i < Nodes; i++)
        {
            loss[i] = LossDb(rule.GetAbscissa(i));
            weight[i] = rule.GetWeight(i) / (toDegrees - fromDegrees);
        }

        return (loss, weight);
    }
}
