using CsCheck;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>Polarisation loss as a point or a distribution.</summary>
public sealed class PolarizationSpreadTests
{
    // RFID Handbook, CRC 2008, ch. 10 (read): circular reader and linear tag 0.5, whatever the roll; linear and linear cos^2.
    [Fact]
    public void Circular_AnyOrientation_LosesHalf()
    {
        foreach (var orientation in Enum.GetValues<TagOrientation>())
        {
            var spread = PolarizationSpread.For(ReaderPolarization.Circular, TagPolarization.Linear, orientation);
            Assert.Equal(3.0103, spread.FixedLossDb!.Value, 0.0001);
        }
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(45, 3.01)]
    [InlineData(60, 6.02)]
    public void Linear_Angle_LosesCosineSquared(double degrees, double db) =>
        // The cross-polar floor of -20 dB adds at most 0.13 dB below 60 degrees.
        Assert.Equal(db, PolarizationSpread.LossDb(degrees), 0.14);

    [Fact]
    public void Crossed_AtRightAngles_MeetsTheFloor() => Assert.Equal(20, PolarizationSpread.LossDb(90), 1e-9);

    // Slow oracle: dense midpoint sum over the angle.
    [Fact]
    public void Success_DenseSum_Agrees() =>
        Gen.Select(Gen.Double[-30, 40], Gen.Double[1, 8], Gen.Int[0, 2]).Sample((margin, sigma, which) =>
        {
            var (spread, from, to) = which switch
            {
                0 => (PolarizationSpread.AnyRoll, 0.0, 90.0),
                1 => (PolarizationSpread.Crossed, 75.0, 90.0),
                _ => (PolarizationSpread.DualAnyRoll, 0.0, 45.0),
            };
            Assert.Equal(Dense(margin, sigma, from, to), spread.Success(margin, sigma), 1e-4);
        }, iter: 300);

    [Fact]
    public void Quantile_OfEachSpread_InvertsTheDistribution() =>
        Gen.Select(Gen.Int[0, PolarizationSpread.All.Count - 1], Gen.Double[0.01, 0.99], Gen.Double[0.3, 10])
            .Sample((which, p, sigma) =>
            {
                var spread = PolarizationSpread.All[which];
                Assert.Equal(p, 1 - spread.Success(-spread.QuantileDb(p, sigma), sigma), 1e-7);
            }, iter: 500);

    [Fact]
    public void DecileTable_AnySigma_AgreesWithTheSolvedQuantiles() =>
        Gen.Select(Gen.Int[0, PolarizationSpread.All.Count - 1], Gen.Double[0.6, 20]).Sample((which, sigma) =>
        {
            var spread = PolarizationSpread.All[which];
            var (low, middle, high) = spread.DecileOffsets(sigma);
            Assert.Equal(spread.QuantileDb(0.1, sigma), low, 0.005);
            Assert.Equal(spread.QuantileDb(0.5, sigma), middle, 0.005);
            Assert.Equal(spread.QuantileDb(0.9, sigma), high, 0.005);
        }, iter: 500);

    private static double Dense(double margin, double sigma, double from, double to)
    {
        const int n = 4000;
        double sum = 0;
        for (var i = 0; i < n; i++)
            sum += StandardNormal.Cumulative((margin - PolarizationSpread.LossDb(from + ((i + 0.5) * (to - from) / n))) / sigma);
        return sum / n;
    }
}
