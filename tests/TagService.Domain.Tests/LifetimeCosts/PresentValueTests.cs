using TagService.Domain.LifetimeCosts;

namespace TagService.Domain.Tests.LifetimeCosts;

/// <summary>
/// Factors as tabulated in the discount-factor tables that go with NIST Handbook 135; the digits are the formula
/// evaluated in R 4.2.2, so they catch a typing error, not a wrong formula.
/// </summary>
public sealed class PresentValueTests
{
    [Theory]
    [InlineData(0.03, 5, 0.862609)]
    [InlineData(0.03, 10, 0.744094)]
    [InlineData(0.03, 25, 0.477606)]
    [InlineData(0.05, 15, 0.481017)]
    [InlineData(0.07, 30, 0.131367)]
    public void Spv_TabulatedYears_Matches(double rate, double years, double expected) =>
        Assert.Equal(expected, PresentValue.Spv(rate, years), 6);

    [Theory]
    [InlineData(0.03, 5, 4.579707)]
    [InlineData(0.03, 20, 14.877475)]
    [InlineData(0.05, 10, 7.721735)]
    [InlineData(0.07, 25, 11.653583)]
    public void Upv_TabulatedYears_Matches(double rate, double years, double expected) =>
        Assert.Equal(expected, PresentValue.Upv(rate, years), 6);

    [Fact]
    public void Upv_NoDiscount_IsTheNumberOfYears()
    {
        Assert.Equal(12, PresentValue.Upv(0, 12));
        Assert.Equal(12, PresentValue.Upv(1e-8, 12), 5);
    }

    [Fact]
    public void LifeCycleCost_PublishedTwoOptions_Matches()
    {
        // A published web example, d = 5 %, 10 years: 10,000 + 2,000 a year against 15,000 + 1,000 a year,
        // printed 25,443 and 22,722 (inputs inferred from the printed results).
        Assert.Equal(25443.47, 10000 + (2000 * PresentValue.Upv(0.05, 10)), 2);
        Assert.Equal(22721.73, 15000 + (1000 * PresentValue.Upv(0.05, 10)), 2);
    }
}
