using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>The field of reader coils at 13.56 MHz.</summary>
public sealed class HfLoopTests
{
    // H = N I R^2/(2 (R^2 + x^2)^1.5) (secondary), R 0.1 m, 1 ampere-turn: computed values.
    [Theory]
    [InlineData(0, 5.000)]
    [InlineData(0.05, 3.578)]
    [InlineData(0.1, 1.768)]
    [InlineData(0.2, 0.447)]
    [InlineData(0.3, 0.158)]
    public void Field_CircularCoil_MatchesTheTable(double distanceM, double field) =>
        Assert.Equal(field, HfLoop.FieldAPerM(0.1, 1, distanceM), 0.001);

    // Range to the thresholds of ISO/IEC 15693 (0.15 A/m) and ISO/IEC 14443 (1.5 A/m) (limits secondary, ranges computed).
    [Theory]
    [InlineData(0.1, 1, 0.306, 0.111)]
    [InlineData(0.025, 1, 0.125, 0.054)]
    [InlineData(0.30, 2, 0.788, 0.252)]
    public void Range_ToTheStandardsThresholds_MatchesTheTable(double radiusM, double ampereTurns, double vicinityM, double proximityM)
    {
        Assert.Equal(vicinityM, HfLoop.RangeM(radiusM, ampereTurns, 0.15), 0.001);
        Assert.Equal(proximityM, HfLoop.RangeM(radiusM, ampereTurns, 1.5), 0.001);
    }

    [Fact]
    public void Range_CentreTooWeak_IsZero() => Assert.Equal(0, HfLoop.RangeM(0.5, 1, 1.5));

    // Optimum coil for a distance: R = sqrt(2) x (derivation read): both neighbours give less at the same current.
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.5)]
    public void BestRadius_ForADistance_IsAMaximum(double distanceM)
    {
        var best = HfLoop.BestRadiusM(distanceM);
        Assert.Equal(Math.Sqrt(2), best / distanceM, 1e-12);
        var field = HfLoop.FieldAPerM(best, 1, distanceM);
        Assert.True(HfLoop.FieldAPerM(best * 1.01, 1, distanceM) < field);
        Assert.True(HfLoop.FieldAPerM(best * 0.99, 1, distanceM) < field);
    }

    // Slow oracle for the rectangular coil of Finkenzeller, RFID Handbook, p. 65 (secondary): Biot-Savart along the wire.
    [Theory]
    [InlineData(0.2, 0.1, 0)]
    [InlineData(0.2, 0.1, 0.07)]
    [InlineData(0.05, 0.08, 0.3)]
    public void Field_RectangularCoil_AgreesWithBiotSavart(double a, double b, double x)
    {
        double sum = 0;
        const int n = 100_000;
        foreach (var (length, offset) in new[] { (a, b / 2), (b, a / 2) })
        {
            for (var i = 0; i < n; i++)
            {
                var s = ((i + 0.5) / n * length) - (length / 2);
                var r2 = (s * s) + (offset * offset) + (x * x);
                // Axial part of dl x r/(4 pi r^3), two equal sides.
                sum += 2 * offset / (4 * Math.PI * r2 * Math.Sqrt(r2)) * length / n;
            }
        }

        Assert.Equal(sum, HfLoop.RectangularFieldAPerM(a, b, 1, x), sum * 1e-6);
    }

    // Field rule 60 dBuA/m at 10 m (Germany, read): moment 1.648 A m2, hence 0.15 A/m out to 1.14 m with a 0.4 m coil, inside the
    // published class of 1-1.5 m (secondary).
    [Theory]
    [InlineData(0.2, 1.19)]
    [InlineData(0.3, 1.17)]
    [InlineData(0.4, 1.14)]
    [InlineData(0.5, 1.10)]
    [InlineData(0.75, 0.94)]
    public void FieldRule_VicinityRange_IsAboutOneMetre(double radiusM, double rangeM)
    {
        var moment = HfLoop.LargestMomentAm2(1e-3, 10);
        Assert.Equal(1.648, moment, 0.005);
        var ampereTurns = moment / (Math.PI * radiusM * radiusM);
        Assert.Equal(rangeM, HfLoop.RangeM(radiusM, ampereTurns, 0.15), 0.02);
        Assert.InRange(HfLoop.RangeM(0.4, moment / (Math.PI * 0.16), 0.15), 1, 1.5);
    }

    // ISO/IEC 15693 data rates fc/512 and fc/2048 (secondary): 26.48 and 6.62 kbit/s.
    [Theory]
    [InlineData(512, 26.48)]
    [InlineData(2048, 6.62)]
    public void DataRate_Iso15693_MatchesTheStandard(int cycles, double kilobits) =>
        Assert.Equal(kilobits, HfLoop.DataRateKilobits(cycles), kilobits * 0.001);
}
