using TagService.Domain.Units;

namespace TagService.Domain.Surfaces;

/// <summary>Building materials by the power laws of ITU-R P.2040.</summary>
public static class ItuPermittivity
{
    /// <summary>
    /// eps' = a f^b, sigma = c f^d (S/m, f in GHz), eps'' = sigma/(2 pi f eps0) = 17.975 sigma/f.
    /// </summary>
    /// <param name="coefficients">a, b, c, d of the recommendation's Table 3.</param>
    /// <param name="frequencyMhz">Frequency in MHz, above 0; the recommendation's ranges are indicative, except for the three grounds (1-10 GHz only).</param>
    /// <returns>Permittivity; exact evaluation. Source: ITU-R P.2040-3 (2023), eq. 28-29 and Table 3 (secondary: values as carried by open-source ray tracers). Tested against the printed 9 GHz example values of P.2040-1 and the 0.9 GHz rows.</returns>
    public static Permittivity Evaluate(IReadOnlyList<double> coefficients, double frequencyMhz)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        var gigahertz = Guard.Positive(frequencyMhz) / 1000;
        var real = coefficients[0] * Math.Pow(gigahertz, coefficients[1]);
        return new(real, ConductivitySPerM(coefficients, frequencyMhz)
            / (2 * Math.PI * gigahertz * 1e9 * Permittivity.VacuumFaradPerMetre));
    }

    /// <summary>sigma = c f^d in S/m, f in GHz; same source and range as <see cref="Evaluate"/>.</summary>
    public static double ConductivitySPerM(IReadOnlyList<double> coefficients, double frequencyMhz)
    {
        ArgumentNullException.ThrowIfNull(coefficients);
        return coefficients[2] * Math.Pow(Guard.Positive(frequencyMhz) / 1000, coefficients[3]);
    }
}
