using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>13.56 MHz: the magnetic field of a reader coil, and how far it reaches a threshold.</summary>
public static class HfLoop
{
    /// <summary>Carrier in MHz (ISO/IEC 15693, ISO/IEC 14443).</summary>
    public const double CarrierMhz = 13.56;

    /// <summary>
    /// Field on the axis of a circular coil: H = N I R^2/(2 (R^2 + x^2)^(3/2)) A/m. Exact in the near field (x well below
    /// lambda/2 pi = 3.5 m). Source: Biot-Savart; Finkenzeller, "RFID Handbook", ch. 4 (secondary). Tested at five distances.
    /// </summary>
    /// <param name="radiusM">Coil radius R, m, above 0.</param>
    /// <param name="ampereTurns">N I, A rms, above 0.</param>
    /// <param name="distanceM">x on the axis, m, 0 or more.</param>
    public static double FieldAPerM(double radiusM, double ampereTurns, double distanceM)
    {
        var r2 = Guard.Positive(radiusM) * radiusM;
        var s = r2 + (Guard.NotNegative(distanceM) * distanceM);
        return Guard.Positive(ampereTurns) * r2 / (2 * s * Math.Sqrt(s));
    }

    /// <summary>
    /// Distance at which that field falls to a threshold: x = sqrt((N I R^2/2H)^(2/3) - R^2) m; 0 where the coil's centre does
    /// not reach it. Inverse of <see cref="FieldAPerM"/>; tested by the 0.15 and 1.5 A/m rows.
    /// </summary>
    public static double RangeM(double radiusM, double ampereTurns, double thresholdAPerM)
    {
        var r2 = Guard.Positive(radiusM) * radiusM;
        var s = Math.Cbrt(Math.Pow(Guard.Positive(ampereTurns) * r2 / (2 * Guard.Positive(thresholdAPerM)), 2));
        return s > r2 ? Math.Sqrt(s - r2) : 0;
    }

    /// <summary>
    /// Field on the axis of a rectangular coil of sides a, b: N I a b/(4 pi sqrt((a/2)^2 + (b/2)^2 + x^2))
    /// (1/((a/2)^2 + x^2) + 1/((b/2)^2 + x^2)) A/m. Exact. Source: Finkenzeller, "RFID Handbook", 2nd ed., p. 65 (secondary).
    /// Tested against integrating Biot-Savart along the wire.
    /// </summary>
    public static double RectangularFieldAPerM(double sideAM, double sideBM, double ampereTurns, double distanceM)
    {
        double a2 = Guard.Positive(sideAM) * sideAM / 4, b2 = Guard.Positive(sideBM) * sideBM / 4;
        var x2 = Guard.NotNegative(distanceM) * distanceM;
        return Guard.Positive(ampereTurns) * sideAM * sideBM / (4 * Math.PI * Math.Sqrt(a2 + b2 + x2))
            * ((1 / (a2 + x2)) + (1 / (b2 + x2)));
    }

    /// <summary>Coil radius that gives most field at x for a given current: R = sqrt(2) x. Source: dH/dR = 0 (exact); tested as a maximum.</summary>
    public static double BestRadiusM(double distanceM) => Math.Sqrt(2) * Guard.Positive(distanceM);

    /// <summary>
    /// Largest magnetic moment N I A (A m^2) that keeps within a field limit at a distance, coplanar direction:
    /// H = m/(4 pi r^3) sqrt(((kr)^2 - 1)^2 + (kr)^2). Source: small loop, all field terms (Balanis, "Antenna Theory", ch. 5).
    /// Tested: 60 dBuA/m at 10 m gives 1.65 A m^2.
    /// </summary>
    /// <param name="limitAPerM">Field limit, A/m, above 0 (60 dBuA/m is 1e-3).</param>
    /// <param name="distanceM">Its distance, m, above 0.</param>
    public static double LargestMomentAm2(double limitAPerM, double distanceM)
    {
        var kr = 2 * Math.PI * Guard.Positive(distanceM) / new Megahertz(CarrierMhz).Wavelength.Value;
        var factor = double.Hypot((kr * kr) - 1, kr);
        return Guard.Positive(limitAPerM) * 4 * Math.PI * distanceM * distanceM * distanceM / factor;
    }

    /// <summary>Data rate in kbit/s of a bit that lasts a whole number of carrier cycles: fc/n (512 and 2048 in ISO/IEC 15693).</summary>
    public static double DataRateKilobits(int carrierCyclesPerBit) => CarrierMhz * 1000 / Guard.Positive(carrierCyclesPerBit);
}
