using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>
/// The link-budget kernels shared by recommendation and calculator. Both directions are written as the greatest
/// one-way path loss they bear; the range follows from the path model, and the smaller of the two limits.
/// </summary>
public static class LinkBudget
{
    /// <summary>
    /// Forward: EIRP + G - losses - P_th, the path loss at which the chip just powers up. Source: Friis;
    /// Ahson and Ilyas (eds.), "RFID Handbook", CRC 2008, eq. 4.4 (read). Tested by the 4 W / 915 MHz grid.
    /// </summary>
    /// <param name="eirpDbm">Radiated power, dBm EIRP.</param>
    /// <param name="tagGainDbi">Gain of the tag antenna, dBi.</param>
    /// <param name="legLossDb">Polarisation, mismatch and other losses of one leg, dB.</param>
    /// <param name="thresholdDbm">Power-up threshold of the chip, dBm.</param>
    /// <returns>Path loss borne, dB.</returns>
    public static double ForwardLossDb(double eirpDbm, double tagGainDbi, double legLossDb, double thresholdDbm) =>
        eirpDbm + tagGainDbi - legLossDb - thresholdDbm;

    /// <summary>
    /// Return: (EIRP + G_R + 2 (G - losses) + 10 log10 M - S)/2, the one-way path loss at which the reply just reaches
    /// the reader's sensitivity. From P_rx = P_t G_R^2 G^2 p^2 M (lambda/4 pi r)^4 with P_t G_R = EIRP, one antenna for
    /// both ways. Source: Griffin and Durgin, IEEE AP Mag. 51(2), 2009 (from memory); "RFID Handbook", CRC 2008,
    /// eq. 4.6-4.7 (read). Tested by the 1 W, 6 dBi rows.
    /// </summary>
    /// <param name="eirpDbm">Radiated power, dBm EIRP.</param>
    /// <param name="readerGainDbi">Gain of the reader antenna, dBi.</param>
    /// <param name="tagGainDbi">Gain of the tag antenna, dBi.</param>
    /// <param name="legLossDb">Losses of one leg, dB; they count twice.</param>
    /// <param name="modulationDb">10 log10 of the modulation factor M, dB (-6.02 for an open/matched switch).</param>
    /// <param name="sensitivityDbm">Weakest reply decoded, dBm.</param>
    /// <returns>One-way path loss borne, dB.</returns>
    public static double ReturnLossDb(
        double eirpDbm, double readerGainDbi, double tagGainDbi, double legLossDb, double modulationDb, double sensitivityDbm) =>
        (eirpDbm + readerGainDbi + (2 * (tagGainDbi - legLossDb)) + modulationDb - sensitivityDbm) / 2;

    /// <summary>ERP over a half-wave dipole to EIRP: + 10 log10 1.64 = 2.15 dB (regulators' convention).</summary>
    public const double ErpToEirpDb = 2.15;

    /// <summary>A band's limit as EIRP in dBm.</summary>
    /// <param name="band">Band with its limit in W and what it refers to.</param>
    /// <returns>dBm EIRP. 2 W ERP is 35.16 dBm (tested).</returns>
    public static double LimitEirpDbm(RadioBand band)
    {
        ArgumentNullException.ThrowIfNull(band);
        return Dbm.FromWatts(band.LimitWatts).Value + (band.Reference == PowerReference.Erp ? ErpToEirpDb : 0);
    }
}
