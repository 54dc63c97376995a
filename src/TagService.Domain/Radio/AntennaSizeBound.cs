using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>What an antenna of a given size can do at best. On a large metal object the object radiates too, and the bound does not apply.</summary>
public static class AntennaSizeBound
{
    /// <summary>
    /// Lowest quality factor of an antenna within a sphere of radius a: Q = 1/(ka)^3 + 1/(ka).
    /// Source: Chu (1948), McLean, IEEE Trans. AP 44(5), 1996 (abstract read, formula from memory). Tested at ka 0.1, 0.5, 1.
    /// </summary>
    /// <param name="ka">Radius times 2 pi/lambda, above 0 to 10.</param>
    public static double LowestQ(double ka) => (1 / Math.Pow(Guard.InRange(ka, 1e-4, 10), 3)) + (1 / ka);

    /// <summary>
    /// Highest directivity counted: max(1.5, (ka)^2 + 2 ka), ratio. Source: Harrington (1960, from memory); below ka of about
    /// 0.6 the single short-dipole mode's 1.5 stands.
    /// </summary>
    public static double HighestDirectivity(double ka) => Math.Max(1.5, (ka * ka) + (2 * ka));

    /// <summary>
    /// Upper bound of realised gain across a band: 10 log10(D (1 - exp(-2 pi/(Q B/f)))) dBi: the best match that Bode and
    /// Fano allow a resonance of quality Q over bandwidth B. Real tags stay below. Source: McLean (1996); Fano (1950) as in
    /// "RFID Handbook", CRC 2008, eq. 4.1 (read); combination as Gustafsson and Nordebo, PIER 62, 2006 (abstract read).
    /// Tested by eight radii in three bands.
    /// </summary>
    /// <param name="largestDimensionMm">Largest dimension of the antenna, mm; the sphere's radius is half of it.</param>
    /// <param name="lowMhz">Lower band edge, MHz.</param>
    /// <param name="highMhz">Upper band edge, MHz, above the lower.</param>
    /// <returns>dBi.</returns>
    public static double GainDbi(double largestDimensionMm, double lowMhz, double highMhz)
    {
        var centre = (Guard.Positive(lowMhz) + Guard.Positive(highMhz)) / 2;
        Guard.Positive(highMhz - lowMhz);
        var ka = Math.PI * Guard.Positive(largestDimensionMm) / 1000 / new Megahertz(centre).Wavelength.Value;
        var match = 1 - Math.Exp(-2 * Math.PI / (LowestQ(ka) * (highMhz - lowMhz) / centre));
        return 10 * Math.Log10(HighestDirectivity(ka) * match);
    }

    /// <summary>
    /// Best reflection magnitude over a band for a chip of R parallel C: exp(-pi/(R C 2 pi B)), 0 to 1. Source: Bode and Fano,
    /// "RFID Handbook", CRC 2008, eq. 4.1 (read). Tested at 26 and 100 MHz.
    /// </summary>
    /// <param name="resistanceOhm">Parallel resistance, ohm.</param>
    /// <param name="capacitancePf">Parallel capacitance, pF.</param>
    /// <param name="bandwidthMhz">Bandwidth, MHz.</param>
    public static double ChipReflection(double resistanceOhm, double capacitancePf, double bandwidthMhz) =>
        Math.Exp(-Math.PI / (Guard.Positive(resistanceOhm) * Guard.Positive(capacitancePf) * 1e-12
            * 2 * Math.PI * Guard.Positive(bandwidthMhz) * 1e6));
}
