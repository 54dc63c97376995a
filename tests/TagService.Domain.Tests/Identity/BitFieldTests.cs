using System.Globalization;
using System.Numerics;
using CsCheck;
using TagService.Domain.Identity;

namespace TagService.Domain.Tests.Identity;

/// <summary>The word-wise reader and writer beside an obvious one that goes through a string of zeros and ones.</summary>
public sealed class BitFieldTests
{
    private static readonly Gen<(byte[] Bytes, int[] Widths)> Fields = Gen.Select(Gen.Byte.Array[1, 62], Gen.Int[1, 64].Array[1, 12]);

    [Fact]
    public void Read_AnyFields_AreThoseOfTheBitString() =>
        Fields.Sample((bytes, widths) =>
        {
            var bits = Binary(bytes);
            var reader = new BitReader(bytes, bits.Length);
            foreach (var width in widths)
            {
                var at = reader.Position;
                if (at + width > bits.Length)
                {
                    Assert.Equal(0ul, reader.Read(width));
                    Assert.True(reader.Overrun);
                    return;
                }

                Assert.Equal(bits.Substring(at, width).Aggregate(0ul, (n, c) => (n << 1) | (c == '1' ? 1ul : 0)), reader.Read(width));
            }

            Assert.False(reader.Overrun);
        }, iter: 20_000);

    [Fact]
    public void Write_AnyFields_AreReadAgain() =>
        Gen.Select(Gen.ULong, Gen.Int[1, 64]).Array[1, 7].Sample(fields =>
        {
            var bytes = new byte[62];
            var writer = new BitWriter(bytes);
            foreach (var (value, width) in fields)
                writer.Write(value, width);
            var expected = string.Concat(fields.Select(f => f.Item1.ToString("b64", CultureInfo.InvariantCulture)[(64 - f.Item2)..]));
            Assert.Equal(expected.Length, writer.Position);
            Assert.Equal(expected, Binary(bytes)[..expected.Length]);
        }, iter: 5000);

    [Fact]
    public void Digits_OfAnyNumber_AreThoseOfItsText() =>
        Gen.OneOf(Gen.ULong, Gen.Select(Gen.Int[0, 19], Gen.Int[-1, 1]).Select((e, d) => (ulong)Math.Max(0, (decimal)BigInteger.Pow(10, e) + d))).Sample(n =>
            Assert.Equal(n.ToString(CultureInfo.InvariantCulture).Length, PowersOfTen.Digits(n)), iter: 5000);

    // TDS 2.3, section 14.5.6.1 (read): ceil(L log 10 / log 2).
    [Fact]
    public void Bits_OfDigits_FollowTheFormula() =>
        Assert.All(Enumerable.Range(1, 38), l => Assert.Equal((int)Math.Ceiling(l * Math.Log(10) / Math.Log(2)), PowersOfTen.Bits(l)));

    private static string Binary(byte[] bytes) => string.Concat(bytes.Select(b => b.ToString("b8", CultureInfo.InvariantCulture)));
}
