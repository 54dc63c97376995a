using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Published path formulas beside the site table, for comparison and for users who prefer them.</summary>
public static class IndoorModels
{
    /// <summary>
    /// Indoor loss L = 20 log10 f + N log10 d + Pf - 28 dB. Source: ITU-R P.1238 (2001 era; secondary). The newest
    /// edition has another form. Tested by the office and commercial rows at 915 MHz.
    /// </summary>
    /// <param name="frequencyMhz">f in MHz, above 0 (coefficients known at 900 MHz).</param>
    /// <param name="distanceM">d in m, above 1.</param>
    /// <param name="powerLossCoefficient">N in dB per decade: 33 office, 20 commercial at 900 MHz.</param>
    /// <param name="floorLossDb">Pf in dB: 0 on one floor; office 9, 19, 24 for one, two, three floors.</param>
    /// <returns>Loss in dB.</returns>
    public static double P1238LossDb(double frequencyMhz, double distanceM, double powerLossCoefficient, double floorLossDb) =>
        (20 * Math.Log10(Guard.Positive(frequencyMhz))) + (powerLossCoefficient * Math.Log10(Guard.InRange(distanceM, 1, 1e5)))
        + floorLossDb - 28;

    /// <summary>
    /// Distance in m beyond which the ground reflection steepens the path loss: d = 4 h1 h2/lambda (heights in m),
    /// the last maximum of the two-ray pattern. Source: two-ray model (secondary). Tested by its 915 MHz row.
    /// </summary>
    public static double TwoRayCrossoverM(double frequencyMhz, double height1M, double height2M) =>
        4 * Guard.Positive(height1M) * Guard.Positive(height2M) / new Megahertz(Guard.Positive(frequencyMhz)).Wavelength.Value;

    /// <summary>
    /// The other crossover in use, d = 4 pi h1 h2/lambda in m, where the two-ray asymptote meets free space.
    /// Source: two-ray model (secondary; a published example prints 1.5 km for 30 m, 1.5 m, 800 MHz).
    /// </summary>
    public static double TwoRayAsymptoteM(double frequencyMhz, double height1M, double height2M) =>
        Math.PI * TwoRayCrossoverM(frequencyMhz, height1M, height2M);

    /// <summary>
    /// Gain of direct and ground-reflected ray over free space, in dB: 20 log10 |1 + G (d1/d2) exp(-j k (d2 - d1))|.
    /// Exact for a flat floor of constant reflection. Shows why +-5 dB of fading is normal. Tested by the 1-15 m rows.
    /// </summary>
    /// <param name="frequencyMhz">Frequency in MHz, above 0.</param>
    /// <param name="height1M">Reader height in m, above 0.</param>
    /// <param name="height2M">Tag height in m, above 0.</param>
    /// <param name="distanceM">Horizontal distance in m, above 0.</param>
    /// <param name="reflection">Reflection coefficient of the floor, -1 to 1.</param>
    public static double TwoRayGainDb(double frequencyMhz, double height1M, double height2M, double distanceM, double reflection)
    {
        Guard.InRange(reflection, -1, 1);
        var k = 2 * Math.PI / new Megahertz(Guard.Positive(frequencyMhz)).Wavelength.Value;
        var direct = double.Hypot(Guard.Positive(distanceM), height1M - height2M);
        var bounced = double.Hypot(distanceM, Guard.Positive(height1M) + Guard.Positive(height2M));
        var ratio = reflection * direct / bounced;
        var (sin, cos) = Math.SinCos(k * (bounced - direct));
        return 10 * Math.Log10(((1 + (ratio * cos)) * (1 + (ratio * cos))) + (ratio * sin * ratio * sin));
    }
}
