using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Propagation over a clear path.</summary>
public static class FreeSpace
{
    /// <summary>
    /// Loss between isotropic antennas: 20 log10(4 pi d/lambda) dB. Exact in the far field (d above lambda/2 pi,
    /// 5 cm at 915 MHz). Source: Friis (1946), ITU-R P.525. Tested against a published example (10 GHz, 10 km).
    /// </summary>
    /// <param name="frequencyMhz">Frequency in MHz, above 0.</param>
    /// <param name="distanceM">Distance in m, above 0.</param>
    /// <returns>Loss in dB; negative closer than lambda/4 pi.</returns>
    public static double LossDb(double frequencyMhz, double distanceM) =>
        OneMetreLossDb(frequencyMhz) + (20 * Math.Log10(Guard.Positive(distanceM)));

    /// <summary>Loss over the first metre: 20 log10(4 pi/lambda) dB, lambda in m.</summary>
    public static double OneMetreLossDb(double frequencyMhz) =>
        20 * Math.Log10(4 * Math.PI * Guard.Positive(frequencyMhz) * 1e6 / Megahertz.SpeedOfLight);
}
