using System.Globalization;
using CsCheck;
using TagService.Domain.Words;

namespace TagService.Domain.Tests.Words;

/// <summary>The fast way against the framework's own formatting, which it must not differ from in a single character.</summary>
public sealed class DecimalTextTests
{
    private static readonly string[] Formats = ["0", "0.0", "0.00", "0.000", "0.0000", "0.#", "0.##", "0.###", "0.####", "P0"];

    private static readonly Gen<double> Values = Gen.OneOf(
        Gen.Double,
        Gen.Double[-1, 1],
        Gen.Double[-1e3, 1e3],
        Gen.Double[-1.2e8, 1.2e8],
        // Figures as tables hold them, and the ties between two of them.
        Gen.Int[-2_000_000, 2_000_000].Select(i => i / 1000.0),
        Gen.Int[-2_000_000, 2_000_000].Select(i => i / 2000.0),
        Gen.Int[-200_000, 200_000].Select(i => (i / 2000.0) + 1e-11),
        Gen.Int[0, 100_000].Select(i => Math.BitIncrement(i / 2000.0)),
        Gen.Int[0, 100_000].Select(i => Math.BitDecrement(i / 2000.0)));

    [Fact]
    public void TryFormat_AnyNumber_IsTheFrameworksText() =>
        Gen.Select(Values, Gen.Int[0, Formats.Length - 1]).Sample(
            (value, format) => Fast(value, Formats[format]) is not { } text
                || text == value.ToString(Formats[format], CultureInfo.InvariantCulture),
            iter: 300_000);

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.005)]
    [InlineData(-0.004)]
    [InlineData(2.675)]
    [InlineData(99_999_999.6)]
    [InlineData(1e300)]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void Of_EdgesAndTies_IsTheFrameworksText(double value) =>
        Assert.Equal(
            string.Create(CultureInfo.InvariantCulture, $"{value:0.00} {value:0.##} {value:0} {value:P0} {value:E2}"),
            InvariantText.Of($"{value:0.00} {value:0.##} {value:0} {value:P0} {value:E2}"));

    [Fact]
    public void TryFormat_FiguresOfAnAnswer_AreNotLeftToTheFramework() =>
        Gen.Select(Gen.Double[0.01, 5000], Gen.Int[0, Formats.Length - 1]).Sample(
            (figure, format) =>
            {
                // Shares stay below a thousand per cent.
                var value = Formats[format] == "P0" ? figure / 1000 : figure;
                return Fast(value, Formats[format]) is not null || IsNearTie(value, Formats[format]);
            });

    [Fact]
    public void Of_NegativeZero_IsTheFrameworksText() =>
        Assert.Equal((-0.0).ToString("0.00", CultureInfo.InvariantCulture), InvariantText.Of($"{-0.0:0.00}"));

    [Fact]
    public void Of_NullsAndWords_AreWrittenAsUsual()
    {
        double? none = null;
        string? nobody = null;
        Assert.Equal("[] [] 3 1.5", InvariantText.Of($"[{none:0.0}] [{nobody}] {3} {(double?)1.5:0.##}"));
    }

    private static string? Fast(double value, string format)
    {
        Span<char> text = stackalloc char[DecimalText.MostCharacters];
        return DecimalText.TryFormat(value, format, text, out var written) ? text[..written].ToString() : null;
    }

    private static bool IsNearTie(double value, string format)
    {
        var scaled = value * (format == "P0" ? 100 : Math.Pow(10, Math.Max(0, format.Length - 2)));
        return Math.Abs(scaled - Math.Floor(scaled) - 0.5) < 2e-6;
    }
}
