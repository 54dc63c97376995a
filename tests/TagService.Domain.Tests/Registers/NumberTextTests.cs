using System.Globalization;
using CsCheck;
using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

public sealed class NumberTextTests
{
    // Ways of writing numbers by country: ISO 80000-1 allows point or comma as decimal mark and a thin space between groups; groups
    // with point, comma or apostrophe are common practice in Germany, the English-speaking countries and Switzerland.
    [Theory]
    [InlineData("12.5", DecimalMark.Point, "12.5")]
    [InlineData("12,5", DecimalMark.Comma, "12.5")]
    [InlineData("12,5", DecimalMark.Unambiguous, "12.5")]
    [InlineData("1,234.5", DecimalMark.Unambiguous, "1234.5")]
    [InlineData("1.234,5", DecimalMark.Unambiguous, "1234.5")]
    [InlineData("1.234", DecimalMark.Comma, "1234")]
    [InlineData("1.234", DecimalMark.Point, "1.234")]
    [InlineData("1'234'567.5", DecimalMark.Point, "1234567.5")]
    [InlineData("1 234 567,5", DecimalMark.Comma, "1234567.5")]
    [InlineData("1\u202F234,5", DecimalMark.Unambiguous, "1234.5")]
    [InlineData("1.234.567", DecimalMark.Unambiguous, "1234567")]
    [InlineData("0.125", DecimalMark.Unambiguous, "0.125")]
    [InlineData(".5", DecimalMark.Point, "0.5")]
    [InlineData("−7", DecimalMark.Unambiguous, "-7")]
    [InlineData("+3", DecimalMark.Point, "3")]
    [InlineData("1.5e3", DecimalMark.Point, "1500")]
    [InlineData("1.234E2", DecimalMark.Unambiguous, "123.4")]
    public void Parse_NumberAsWritten_IsRead(string text, DecimalMark mark, string expected)
    {
        Assert.Equal(NumberOutcome.Read, NumberText.Parse(text, mark, out var value));
        Assert.Equal(decimal.Parse(expected, CultureInfo.InvariantCulture), value);
    }

    [Theory]
    [InlineData("1.234", DecimalMark.Unambiguous)]
    [InlineData("12,345", DecimalMark.Unambiguous)]
    [InlineData("-999.000", DecimalMark.Unambiguous)]
    public void Parse_TwoMeanings_IsAmbiguous(string text, DecimalMark mark) =>
        Assert.Equal(NumberOutcome.Ambiguous, NumberText.Parse(text, mark, out _));

    [Theory]
    [InlineData("")]
    [InlineData("abc")]
    [InlineData("12a")]
    [InlineData("1,23,456.7")]
    [InlineData("1.234,567.8")]
    [InlineData("12.")]
    [InlineData("--5")]
    [InlineData("1 23")]
    [InlineData("10-20")]
    [InlineData("1e99")]
    [InlineData("NaN")]
    [InlineData("∞")]
    public void Parse_NoNumber_IsSaid(string text) =>
        Assert.Equal(NumberOutcome.NotANumber, NumberText.Parse(text, DecimalMark.Unambiguous, out _));

    private static readonly (string, string)[] Marks = [(".", ","), (",", "."), (",", " "), (".", "'"), (",", "\u00A0")];

    // Oracle: the framework's own formatting with the marks exchanged.
    [Fact]
    public void Parse_FormattedWithGroups_ReadsBack() =>
        Gen.Select(Gen.Decimal[-1e12m, 1e12m], Gen.Int[0, 4].Select(i => Marks[i])).Sample((d, marks) =>
        {
            var value = Math.Round(d, 4);
            var format = new NumberFormatInfo { NumberDecimalSeparator = marks.Item1, NumberGroupSeparator = marks.Item2, NumberDecimalDigits = 4 };
            var mark = marks.Item1 == "." ? DecimalMark.Point : DecimalMark.Comma;
            Assert.Equal(NumberOutcome.Read, NumberText.Parse(value.ToString("N4", format), mark, out var read));
            Assert.Equal(value, read);
        });

    [Fact]
    public void Parse_AnyText_NeverThrows() =>
        Gen.Select(Gen.String[Gen.Char["0123456789.,-+eE' \u00A0x"], 0, 70], Gen.Enum<DecimalMark>()).Sample((text, mark) =>
        {
            var outcome = NumberText.Parse(text, mark, out var value);
            Assert.True(outcome == NumberOutcome.Read || value == 0);
        });
}
