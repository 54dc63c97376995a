using System.Numerics;
using TagService.Domain.Units;

namespace TagService.Domain.Surfaces;

/// <summary>Pure liquid water by the double-Debye form ITU-R uses.</summary>
public static class WaterPermittivity
{
    /// <summary>
    /// eps = eps2 + (eps0 - eps1)/(1 + j f/fp) + (eps1 - eps2)/(1 + j f/fs), with th = 300/T - 1,
    /// eps0 = 77.66 + 103.3 th, eps1 = 0.0671 eps0, eps2 = 3.52, fp = 20.20 - 146 th + 316 th^2 GHz, fs = 39.8 fp.
    /// </summary>
    /// <param name="temperatureC">Water temperature in °C, 0 to 60 (the fit's working range).</param>
    /// <param name="frequencyMhz">Frequency in MHz, 1 to 100 000.</param>
    /// <returns>
    /// Permittivity. Accuracy about 1 % of eps' at 0.9 GHz (a second, independent Debye set gives 78.24 against 78.14
    /// at 25 °C). Salts and additives raise the loss and are not in it. Source: ITU-R P.840/P.676 water model
    /// (Liebe, Hufford and Manabe 1991); formula from memory, checked against the CRC static value 78.54 (25 °C) and
    /// the IAPWS 1997 static permittivity over 0-60 °C.
    /// </returns>
    public static Permittivity Evaluate(double temperatureC, double frequencyMhz)
    {
        Guard.InRange(frequencyMhz, PermittivityCalculation.LowestMhz, PermittivityCalculation.HighestMhz);
        var theta = Theta(temperatureC);
        var e0 = StaticValue(temperatureC);
        var e1 = 0.0671 * e0;
        const double e2 = 3.52;
        var fp = 20.20 - (146 * theta) + (316 * theta * theta);
        var f = frequencyMhz / 1000;
        var eps = e2 + ((e0 - e1) / new Complex(1, f / fp)) + ((e1 - e2) / new Complex(1, f / (39.8 * fp)));
        return new(eps.Real, -eps.Imaginary);
    }

    /// <summary>Static permittivity 77.66 + 103.3 (300/T - 1) at <paramref name="temperatureC"/> °C (0 to 60); within 0.7 of IAPWS 1997.</summary>
    public static double StaticValue(double temperatureC) => 77.66 + (103.3 * Theta(temperatureC));

    private static double Theta(double temperatureC) => (300 / (Guard.InRange(temperatureC, 0, 60) + 273.15)) - 1;
}
