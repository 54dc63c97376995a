using System.Text;
using System.Text.Json;
using CsCheck;
using TagService.Api.Http.Json;

namespace TagService.Service.Tests.Http;

/// <summary>Numbers are written as System.Text.Json writes them, to the byte; it is the reference everywhere here.</summary>
public sealed class JsonNumberTests
{
    [Theory]
    [InlineData(0.0, "0")]
    [InlineData(-0.0, "-0")]
    [InlineData(0.001, "0.001")]
    [InlineData(-0.05, "-0.05")]
    [InlineData(9.999, "9.999")]
    [InlineData(10.0, "10")]
    [InlineData(866.5, "866.5")]
    [InlineData(1e-5, "1E-05")]
    [InlineData(0.1 + 0.2, "0.30000000000000004")]
    [InlineData(999_999_999_999.999, "999999999999.999")]
    [InlineData(1e15, "1000000000000000")]
    [InlineData(1e17, "1E+17")]
    [InlineData(double.Epsilon, "5E-324")]
    [InlineData(double.MaxValue, "1.7976931348623157E+308")]
    [InlineData(double.MinValue, "-1.7976931348623157E+308")]
    public void Write_Value_IsTheShortestTextThatReadsBack(double value, string expected)
    {
        Assert.Equal(expected, Written(value));
        Assert.Equal(expected, JsonSerializer.Serialize(value));
    }

    [Fact]
    public void Write_RoundedToAnyNumberOfDecimals_IsWhatTheSerializerWrites() =>
        Gen.Select(Gen.Double[-2000, 2000], Gen.Int[0, 5]).Sample((value, decimals) => Same(Math.Round(value, decimals)), iter: 700_000);

    [Fact]
    public void Write_ThousandthsOfAnySize_IsWhatTheSerializerWrites() =>
        Gen.Select(Gen.Long, Gen.Int[0, 63]).Sample((bits, shift) => Same((bits >> shift) / 1000.0), iter: 2_000_000);

    [Fact]
    public void Write_NeighboursOfThousandths_AreWhatTheSerializerWrites() =>
        Gen.Select(Gen.Long[-3_000_000, 3_000_000], Gen.Bool)
            .Sample((n, up) => Same(up ? Math.BitIncrement(n / 1000.0) : Math.BitDecrement(n / 1000.0)), iter: 500_000);

    [Fact]
    public void Write_AnyBits_AreWhatTheSerializerWrites() =>
        Gen.Long.Select(BitConverter.Int64BitsToDouble).Where(double.IsFinite).Sample(Same, iter: 300_000);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Write_NoNumberOfJson_Throws(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => JsonNumber.Write(value, new byte[JsonNumber.MaxBytes]));

    private static bool Same(double value)
    {
        Span<byte> ours = stackalloc byte[JsonNumber.MaxBytes];
        ours = ours[..JsonNumber.Write(value, ours)];
        return ours.SequenceEqual(JsonSerializer.SerializeToUtf8Bytes(value));
    }

    private static string Written(double value)
    {
        var bytes = new byte[JsonNumber.MaxBytes];
        return Encoding.UTF8.GetString(bytes, 0, JsonNumber.Write(value, bytes));
    }
}
