using TagService.Domain.Reliability;

namespace TagService.Domain.Tests.Reliability;

public sealed class WeibullTests
{
    // NIST/SEMATECH e-Handbook 8.4.1.3 example (10 failures, 10 removed at 500 h): fitted shape 1.720797, scale
    // 606.52756; reliability at 100 h and B10 life from that fit computed with R 4.2.2.
    private static readonly Weibull Nist = new(1.720797, 606.52756);

    [Fact]
    public void Survival_NistFitAt100Hours_MatchesR() => Assert.Equal(0.956031, Nist.Survival(100), 6);

    [Fact]
    public void Quantile_NistFitB10_MatchesR() => Assert.Equal(164.0224, Nist.Quantile(0.1), 3);

    [Theory]
    [InlineData(1e-12)]
    [InlineData(1e-6)]
    [InlineData(0.3)]
    [InlineData(4)]
    public void Cumulative_ShapeOne_IsTheExponentialDistribution(double years)
    {
        // Closed form -expm1(-t/eta); the series is checked where 1 - exp loses digits.
        var expected = -Math.Exp(-years / 5) + 1;
        var series = (years / 5) - (years * years / 50);
        Assert.Equal(years < 1e-3 ? series : expected, new Weibull(1, 5).Cumulative(years), 1e-12 * Math.Max(years, 1e-6));
    }

    [Fact]
    public void MedianYears_IsWhereHalfSurvive() => Assert.Equal(0.5, Nist.Survival(Nist.MedianYears), 12);

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Survival_ImpossibleAge_Throws(double years) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Nist.Survival(years));
}
