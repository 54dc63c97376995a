using TagService.Domain.Units;

namespace TagService.Domain.Tests.Units;

public sealed class GuardTests
{
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(-0.001)]
    [InlineData(1.001)]
    public void InRange_Outside_NamesArgumentValueAndRange(double probability)
    {
        var e = Assert.Throws<ArgumentOutOfRangeException>(() => Guard.InRange(probability, 0, 1));
        Assert.Equal("probability", e.ParamName);
        Assert.Contains("0 to 1", e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Positive_NotPositive_Throws(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Guard.Positive(value));

    [Fact]
    public void Dbm_ArithmeticWithDecibels_FollowsTheDefinition()
    {
        // 2 W ERP is 3.281 W EIRP: ERP refers to a half-wave dipole of 2.15 dBi (definition).
        var eirp = Dbm.FromWatts(2) + new Decibels(2.15);
        Assert.Equal(35.16, eirp.Value, 2);
        Assert.Equal(3.281, eirp.Watts, 3);
    }

    [Fact]
    public void Wavelength_915Megahertz_MatchesTheDefinition() =>
        Assert.Equal(0.32764, new Megahertz(915).Wavelength.Value, 5);

    [Fact]
    public void Money_DifferentCurrencies_CannotBeAdded() =>
        Assert.Throws<InvalidOperationException>(() => new Money(1, "EUR") + new Money(1, "USD"));
}
