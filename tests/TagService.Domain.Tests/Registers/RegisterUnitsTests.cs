using CsCheck;
using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

public sealed class RegisterUnitsTests
{
    // NIST SP 811 (2008), appendix B.8, from memory: in = 2.54 E-02 m, ft = 3.048 E-01 m, mil = 2.54 E-05 m, all exact;
    // degree Fahrenheit: t/degC = (t/degF - 32)/1.8, kelvin: T/K = t/degC + 273.15 (SI brochure). Fixed points: 32 and 212 degF are
    // 0 and 100 degC; -40 is the same on both scales; absolute zero -459.67 degF. A Julian year has 365.25 days (IAU).
    [Theory]
    [InlineData("1", "in", "mm", "25.4")]
    [InlineData("0.5", "in", "mm", "12.7")]
    [InlineData("1", "ft", "mm", "304.8")]
    [InlineData("12", "in", "ft", "1")]
    [InlineData("1", "mil", "um", "25.4")]
    [InlineData("100", "cm", "m", "1")]
    [InlineData("32", "degF", "degC", "0")]
    [InlineData("212", "degF", "degC", "100")]
    [InlineData("-40", "degF", "degC", "-40")]
    [InlineData("-459.67", "degF", "K", "0")]
    [InlineData("0", "K", "degC", "-273.15")]
    [InlineData("1", "years", "days", "365.25")]
    [InlineData("12", "months", "years", "1")]
    [InlineData("1.5", "hours", "minutes", "90")]
    [InlineData("95", "percent", "fraction", "0.95")]
    [InlineData("2", "per-month", "per-year", "24")]
    public void Convert_PublishedDefinition_IsExact(string value, string from, string to, string expected)
    {
        var converted = RegisterUnits.Table[from].Convert(Decimal(value), RegisterUnits.Table[to]);

        Assert.Equal(Decimal(expected), converted);
    }

    [Fact]
    public void Convert_ThereAndBack_GivesTheSameForEveryPairOfUnits() =>
        Gen.Int[-1_000_000, 1_000_000].Sample(n =>
        {
            foreach (var a in RegisterUnits.Table.All)
            {
                foreach (var b in RegisterUnits.Table.All.Where(u => u.Dimension == a.Dimension))
                {
                    var value = n / 1000m;
                    var back = b.Convert(a.Convert(value, b)!.Value, a)!.Value;
                    Assert.InRange((double)(back - value), -1e-12, 1e-12);
                }
            }
        }, iter: 100);

    [Fact]
    public void Convert_BeyondDecimal_IsNoValue() =>
        Assert.Null(RegisterUnits.Table["years"].Convert(decimal.MaxValue, RegisterUnits.Table["s"]));

    [Fact]
    public void Convert_OtherDimension_Throws() =>
        Assert.Throws<ArgumentException>(() => RegisterUnits.Table["mm"].Convert(1, RegisterUnits.Table["degC"]));

    [Fact]
    public void Find_EveryNameOfEveryUnit_LeadsBackToIt()
    {
        foreach (var unit in RegisterUnits.Table.All)
        {
            foreach (var name in unit.Names.Prepend(unit.Id))
                Assert.Same(unit, RegisterUnits.Find($" {name} ", unit.Dimension));
        }
    }

    [Fact]
    public void Table_EveryRow_HasPositiveFactorsAndASource() =>
        Assert.All(RegisterUnits.Table.All, u =>
        {
            Assert.True(u is { Numerator: > 0, Denominator: > 0 });
            Assert.NotEmpty(u.Source);
        });

    private static decimal Decimal(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
