using System.Numerics;
using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>Match and reply against published numbers.</summary>
public sealed class BackscatterTests
{
    // Barbot, "Differential RCS" page (2021-22, read): 915 MHz, half-wave tag: -22 dBsm (63 cm2) and -16 dBsm (250 cm2), whole dB.
    [Theory]
    [InlineData(0, -1, -22)]
    [InlineData(1, -1, -16)]
    public void DifferentialRcs_HalfWaveTag_MatchesThePage(double state1, double state2, double dbsm)
    {
        var m = Backscatter.ModulationFactor(state1, state2);
        Assert.Equal(dbsm, 10 * Math.Log10(Backscatter.DifferentialRcsM2(915, 1.64, m)), 0.6);
    }

    // Tag paper at 921 MHz (read as a fragment, title unknown): 12.4 + j128.4 against 14.8 - j127.1 ohm is "98 %".
    [Fact]
    public void PowerTransfer_PublishedMatch_IsNinetyEightPercent() =>
        Assert.Equal(0.98, Backscatter.PowerTransfer(new Complex(12.4, 128.4), new Complex(14.8, -127.1)), 0.015);

    // The same chip with 28 ohm of reactance error loses 3.03 dB (computed).
    [Fact]
    public void PowerTransfer_ReactanceError_LosesThreeDecibels() =>
        Assert.Equal(0.498, Backscatter.PowerTransfer(new Complex(12.4, 100), new Complex(14.8, -127.1)), 0.001);

    // Bode-Fano for 1106 ohm parallel 1.3414 pF: RFID Handbook (CRC 2008), eq. 4.1 (read); values computed and printed to two digits: the exponent is 13, so the last digit is loose.
    [Theory]
    [InlineData(26, 2.4e-6, 0.06e-6)]
    [InlineData(100, 0.0344, 0.0004)]
    public void ChipReflection_BodeFano_MatchesTheEvidence(double bandwidthMhz, double reflection, double tolerance) =>
        Assert.Equal(reflection, AntennaSizeBound.ChipReflection(1106, 1.3414, bandwidthMhz), tolerance);
}
