using TagService.Domain.LifetimeCosts;
using TagService.Domain.Reliability;

namespace TagService.Domain.Tests.LifetimeCosts;

public sealed class RenewalTests
{
    /// <summary>
    /// m(T) and D(T) by the power series of Smith and Leadbetter (1963) in 60 to 400 digit arithmetic (mpmath 1.2.1),
    /// confirmed by Monte Carlo with 10^6 paths. Columns: shape, scale, T, continuous rate, m, D, tolerance.
    /// </summary>
    public static TheoryData<double, double, double, double, double, double, double> Series => new()
    {
        { 0.5, 12, 2, 0.03, 0.457393321233688, 0.447918849520013, 1e-3 },
        { 0.5, 12, 10, 0.03, 1.16795541093488, 1.04918567645229, 1e-3 },
        { 0.8, 12, 10, 0.03, 0.938647514350317, 0.821517374079624, 1e-4 },
        { 1.0, 10, 10, 0.03, 1.0, 0.863939264394274, 1e-7 },
        { 1.2, 10, 2, 0.03, 0.143068643284629, 0.13849884017288, 1e-6 },
        { 1.2, 10, 10, 0.03, 0.924573060333474, 0.790569206288174, 1e-6 },
        { 1.5, 10, 10, 0.03, 0.841578136649691, 0.71046666470672, 1e-6 },
        { 2.0, 10, 10, 0.03, 0.75369127753704, 0.625775992421246, 1e-7 },
        { 2.5, 10, 2, 0.03, 0.0177587988501974, 0.0170160675369226, 1e-7 },
        { 3.0, 10, 10, 0.03, 0.672329100238312, 0.545253100654403, 1e-7 },
        { 1.5, 5, 10, 0.05, 1.94550079992588, 1.49084610355632, 1e-6 },
        { 3.0, 6, 20, 0.07, 3.29897641714272, 1.60640260412081, 1e-6 },
        { 1.3, 3, 10, 0.03, 3.41000195432396, 2.92452959212069, 1e-6 },
        { 2.5, 1, 5, 0, 5.22685565384454, 5.22685565384454, 1e-6 },
    };

    [Theory]
    [MemberData(nameof(Series))]
    public void Expected_PowerSeriesTable_Matches(
        double shape, double scale, double horizon, double rate, double m, double d, double tolerance)
    {
        var result = Renewal.Expected(new Weibull(shape, scale), horizon, rate);
        Assert.Equal(m, result.Renewals, tolerance);
        Assert.Equal(d, result.DiscountedRenewals, tolerance);
    }

    [Theory]
    [InlineData(0.1, 0.0061)]
    [InlineData(0.4, 0.1087)]
    [InlineData(1.0, 0.6091)]
    [InlineData(1.5, 1.124)]
    [InlineData(2.5, 2.125)]
    public void Expected_TijmsTable811_MatchesThePrintedDigits(double t, double printed)
    {
        // Tijms, A First Course in Stochastic Models (2003), Table 8.1.1, Weibull with mean 1 and squared
        // coefficient of variation 0.25: shape 2.101349, scale 1.129063.
        var result = Renewal.Expected(new Weibull(2.101349, 1.129063), t, 0);
        Assert.Equal(printed, result.Renewals, printed > 1 ? 5.1e-4 : 5.1e-5);
    }

    [Fact]
    public void Expected_ConstantRate_MatchesTheClosedForm()
    {
        // Poisson process: D = lambda (1 - exp(-rT)) / r; 50 x D(10) at lambda 0.1, r 0.03 is 43.19696322.
        var result = Renewal.Expected(new Weibull(1, 10), 10, 0.03);
        Assert.Equal(43.19696322, 50 * result.DiscountedRenewals, 1e-6);
    }

    [Theory]
    [MemberData(nameof(Series))]
    public void Table_PowerSeriesTable_WithinAThousandth(
        double shape, double scale, double horizon, double rate, double m, double d, double tolerance)
    {
        _ = m;
        var table = RenewalTable.ForShape(shape).Discounted(scale, horizon, rate);
        Assert.Equal(d, table, Math.Max(tolerance, 1e-3) * Math.Max(1, d) * (shape < 1 ? 10 : 1));
    }

    [Fact]
    public void Table_FarBeyondItsReach_FollowsTheSteadyRate()
    {
        // Elementary renewal theorem: one renewal a mean life; shape 2 has mean eta sqrt(pi)/2.
        var grown = RenewalTable.ForShape(2).Discounted(1, 40, 0) - RenewalTable.ForShape(2).Discounted(1, 30, 0);
        Assert.Equal(10 / (Math.Sqrt(Math.PI) / 2), grown, 1e-9);
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(double.NaN)]
    public void Expected_ShapeOutsideRange_Throws(double shape) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Renewal.Expected(new Weibull(shape, 1), 1, 0));
}
