using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>
/// Path loss of one place at one frequency: free space to the breakpoint d0, then exponent n:
/// L(d) = L0 + 20 log10 d for d up to d0, L(d0) + 10 n log10(d/d0) beyond, d in m, L0 the loss over 1 m.
/// Continuous and strictly rising, so it inverts in closed form. Source: log-distance model with reference distance
/// (Rappaport, "Wireless Communications", 1996; exponents per site in the data rows). Accuracy: the spread about it
/// is the site's look sigma. Tested against the 53.15 dB row of the retail exponent and by inversion.
/// </summary>
public readonly record struct PathModel
{
    private readonly double _oneMetreDb;
    private readonly double _breakDb;
    private readonly double _breakLog;
    private readonly double _exponent;

    /// <summary>Prepares the constants.</summary>
    /// <param name="frequencyMhz">Frequency in MHz, above 0.</param>
    /// <param name="breakpointM">Distance in m up to which free space holds, 0.01 to 10 000.</param>
    /// <param name="exponent">Path exponent beyond, 1 to 8 (2 is free space).</param>
    public PathModel(double frequencyMhz, double breakpointM, double exponent)
    {
        _oneMetreDb = FreeSpace.OneMetreLossDb(frequencyMhz);
        _breakLog = Math.Log10(Guard.InRange(breakpointM, 0.01, 10_000));
        _breakDb = _oneMetreDb + (20 * _breakLog);
        _exponent = Guard.InRange(exponent, 1, 8);
    }

    /// <summary>Loss in dB at <paramref name="distanceM"/> m (above 0).</summary>
    public double LossDb(double distanceM)
    {
        var log = Math.Log10(distanceM);
        return log <= _breakLog ? _oneMetreDb + (20 * log) : _breakDb + (10 * _exponent * (log - _breakLog));
    }

    /// <summary>Distance in m at which the loss is <paramref name="lossDb"/> dB: the inverse of <see cref="LossDb"/>.</summary>
    public double DistanceM(double lossDb) =>
        Math.Pow(10, lossDb <= _breakDb ? (lossDb - _oneMetreDb) / 20 : _breakLog + ((lossDb - _breakDb) / (10 * _exponent)));
}
