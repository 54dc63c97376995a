using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>
/// A reader coil as a path: loss(x) = 20 log10(H(0)/H(x)) = 30 log10(1 + (x/R)^2) dB, which inverts in closed form.
/// </summary>
internal sealed class HfReach
{
    private readonly double _radiusM;

    public HfReach(double radiusM, double ampereTurns)
    {
        _radiusM = Guard.Positive(radiusM);
        CentreFieldDb = 20 * Math.Log10(HfLoop.FieldAPerM(radiusM, ampereTurns, 0));
    }

    public double RadiusM => _radiusM;

    /// <summary>Field at the coil's centre, dB over 1 A/m.</summary>
    public double CentreFieldDb { get; }

    public double LossDb(double distanceM)
    {
        var ratio = distanceM / _radiusM;
        return 30 * Math.Log10(1 + (ratio * ratio));
    }

    /// <summary>0 where even the centre of the coil does not reach the threshold.</summary>
    public double DistanceM(double lossDb) => lossDb <= 0 ? 0 : _radiusM * Math.Sqrt(Math.Pow(10, lossDb / 30) - 1);
}
