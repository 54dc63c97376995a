using CsCheck;
using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>The normal distribution against handbook tables and an independent error function.</summary>
public sealed class StandardNormalTests
{
    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1 (from memory).
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.841344746068543)]
    [InlineData(2, 0.977249868051821)]
    [InlineData(3, 0.998650101968370)]
    [InlineData(-1.5, 0.066807201268858)]
    public void Cumulative_Table_IsReproduced(double x, double p) => Assert.Equal(p, StandardNormal.Cumulative(x), 1e-14);

    // Abramowitz and Stegun, table 26.5 (from memory).
    [Theory]
    [InlineData(0.9, 1.2815515655446)]
    [InlineData(0.95, 1.6448536269515)]
    [InlineData(0.975, 1.9599639845401)]
    [InlineData(0.001, -3.0902323061678)]
    public void Quantile_Table_IsReproduced(double p, double x) => Assert.Equal(x, StandardNormal.Quantile(p), 1e-11);

    [Fact]
    public void Cumulative_OtherErrorFunction_Agrees() =>
        Gen.Double[-30, 30].Sample(x =>
            Assert.Equal(MathNet.Numerics.SpecialFunctions.Erfc(-x / Math.Sqrt(2)) / 2, StandardNormal.Cumulative(x), 1e-14));

    [Fact]
    public void Quantile_OfCumulative_ReturnsTheArgument() =>
        Gen.Double[-5, 5].Sample(x => Assert.Equal(x, StandardNormal.Quantile(StandardNormal.Cumulative(x)), 1e-9));
}
