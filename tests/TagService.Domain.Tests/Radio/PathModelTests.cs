using CsCheck;
using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>Path models against published examples and by inversion.</summary>
public sealed class PathModelTests
{
    // ITU-R P.1238 (2001 era, coefficients secondary): office N 33, floor 9 dB; commercial N 20.
    [Theory]
    [InlineData(33, 0, 64.23)]
    [InlineData(33, 9, 73.23)]
    [InlineData(20, 0, 51.23)]
    public void P1238_TenMetresAt915_MatchesTheCoefficients(double n, double floorDb, double lossDb) =>
        Assert.Equal(lossDb, IndoorModels.P1238LossDb(915, 10, n, floorDb), 0.01);

    // Published example (secondary): 30 m and 1.5 m at 800 MHz, crossover 1.5 km by 4 pi h h/lambda.
    [Fact]
    public void TwoRayAsymptote_PublishedExample_IsOnePointFiveKilometres() =>
        Assert.Equal(1500, IndoorModels.TwoRayAsymptoteM(800, 30, 1.5), 15.0);

    // 4 h h/lambda at 915 MHz, 1.5 m and 1.0 m (computed).
    [Fact]
    public void TwoRayCrossover_HandheldAndTag_IsEighteenMetres() =>
        Assert.Equal(18.31, IndoorModels.TwoRayCrossoverM(915, 1.5, 1.0), 0.01);

    // Two-ray gain over free space, 1.5 m and 1.0 m, 915 MHz (computed reference values).
    [Theory]
    [InlineData(1, -1, -0.52)]
    [InlineData(2, -1, 4.30)]
    [InlineData(4, -1, -5.13)]
    [InlineData(6, -1, 5.63)]
    [InlineData(10, -1, -4.40)]
    [InlineData(15, -1, 5.47)]
    [InlineData(2, -0.6, 2.82)]
    [InlineData(10, -0.6, -4.07)]
    public void TwoRayGain_OverDistance_MatchesTheTable(double distanceM, double reflection, double gainDb) =>
        Assert.Equal(gainDb, IndoorModels.TwoRayGainDb(915, 1.5, 1.0, distanceM, reflection), 0.02);

    [Fact]
    public void Path_AnyModel_InvertsAndRises() =>
        Gen.Select(Gen.Double[800, 1000], Gen.Double[0.1, 20], Gen.Double[1.5, 4], Gen.Double[0.01, 100], Gen.Double[1.001, 3])
            .Sample((mhz, breakpoint, exponent, d, factor) =>
            {
                var path = new PathModel(mhz, breakpoint, exponent);
                Assert.Equal(d, path.DistanceM(path.LossDb(d)), d * 1e-9);
                Assert.True(path.LossDb(d * factor) > path.LossDb(d));
            });

    [Fact]
    public void Path_BelowTheBreakpoint_IsFreeSpace()
    {
        var path = new PathModel(915, 5, 3);
        Assert.Equal(FreeSpace.LossDb(915, 4), path.LossDb(4), 1e-9);
        Assert.Equal(FreeSpace.LossDb(915, 5) + (30 * Math.Log10(2)), path.LossDb(10), 1e-9);
    }
}
