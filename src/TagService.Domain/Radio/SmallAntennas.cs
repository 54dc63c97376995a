using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Radiation resistance and efficiency of electrically small dipoles and loops.</summary>
public static class SmallAntennas
{
    /// <summary>
    /// Short dipole: 80 pi^2 (l/lambda)^2 m^2 ohm, m the mean current over the feed current: 1 uniform, 1/2 linear to the
    /// ends. Valid to l about lambda/10. Source: standard (Hayt and Buck, "Engineering Electromagnetics", problem 14.7).
    /// </summary>
    /// <param name="lengthWavelengths">l/lambda, above 0 to 0.2.</param>
    /// <param name="meanCurrent">m, above 0 to 1.</param>
    public static double ShortDipoleOhm(double lengthWavelengths, double meanCurrent = 0.5) =>
        80 * Math.PI * Math.PI * Math.Pow(Guard.InRange(lengthWavelengths, 1e-9, 0.2) * Guard.InRange(meanCurrent, 1e-9, 1), 2);

    /// <summary>
    /// Small loop: 320 pi^4 (N A/lambda^2)^2 ohm. Uniform current, so the circumference must stay below about lambda/10.
    /// Source: standard (secondary). Tested by copper loops of 5-20 mm at 915 MHz and 0.5 m at 3 MHz.
    /// </summary>
    /// <param name="frequencyMhz">Frequency in MHz, above 0.</param>
    /// <param name="areaM2">Area A of one turn in m^2, above 0.</param>
    /// <param name="turns">N, at least 1.</param>
    public static double SmallLoopOhm(double frequencyMhz, double areaM2, int turns = 1)
    {
        var lambda = new Megahertz(Guard.Positive(frequencyMhz)).Wavelength.Value;
        return 320 * Math.Pow(Math.PI, 4) * Math.Pow(turns * Guard.Positive(areaM2) / (lambda * lambda), 2);
    }

    /// <summary>
    /// Skin resistance sqrt(pi f mu0/sigma), ohm per square; <paramref name="frequencyMhz"/> and <paramref name="conductivitySPerM"/>
    /// above 0. Source: standard; 7.89 milliohm for copper at 915 MHz (tested through the loop efficiencies).
    /// </summary>
    public static double SkinResistanceOhm(double frequencyMhz, double conductivitySPerM) =>
        Math.Sqrt(Math.PI * Guard.Positive(frequencyMhz) * 1e6 * 4e-7 * Math.PI / Guard.Positive(conductivitySPerM));

    /// <summary>
    /// Radiation efficiency of a one-turn wire loop: R_r/(R_r + (a/b) R_s), loop radius a, wire radius b in mm.
    /// Skin effect only, no proximity effect. Source: standard (from memory). Tested by the 10 mm and 0.5 m copper loops.
    /// </summary>
    public static double LoopEfficiency(double frequencyMhz, double radiusMm, double wireRadiusMm, double conductivitySPerM = CopperSPerM)
    {
        var radiation = SmallLoopOhm(frequencyMhz, Math.PI * Math.Pow(Guard.Positive(radiusMm) / 1000, 2));
        var loss = radiusMm / Guard.Positive(wireRadiusMm) * SkinResistanceOhm(frequencyMhz, conductivitySPerM);
        return radiation / (radiation + loss);
    }

    /// <summary>Conductivity of annealed copper, S/m (handbook value).</summary>
    public const double CopperSPerM = 5.8e7;
}
