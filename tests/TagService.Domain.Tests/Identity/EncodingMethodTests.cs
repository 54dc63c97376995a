using System.Globalization;
using TagService.Domain.Identity;
using TagService.Domain.Identity.Schemes;

namespace TagService.Domain.Tests.Identity;

/// <summary>Strings of the + schemes, TDS 2.3, section 14.5 (read); one string has several spellings, and all are one identity.</summary>
public sealed class EncodingMethodTests
{
    // C58: the bits inside the + rows of annex E.3. C59 and the rest: derived from tables 14-5 to 14-9.
    [Theory]
    [InlineData("32a/b", "100 00101 0110011 0110010 1100001 0101111 1100010")]
    [InlineData("0123", "000 00100 00000001111011")]
    [InlineData("0A", "001 00010 0000 1010")]
    [InlineData("0a", "010 00010 0000 1010")]
    [InlineData("rif981", "011 00110 101011 100010 011111 111101 111100 110101")]
    // 1600 x 1 + 40 x 28 + 2 + 1 and 1600 x 29 + 40 x 3 + 0 + 1.
    [InlineData("A.B:C", "101 00101 0000101010100011 1011010110111001")]
    public void Write_String_TakesTheShortestWay(string text, string bits)
    {
        var bytes = new byte[40];
        var writer = new BitWriter(bytes);

        VariableAlphanumeric.Write(ref writer, text);

        bits = bits.Replace(" ", "");
        Assert.Equal(bits, Binary(bytes)[..writer.Position]);
    }

    // The same serial "12" of one GIAI after a letter, spelled in every way: base 64, 7 bits, Code 40 (derived).
    [Theory]
    [InlineData("1110 001 00011 1011 0001 0010")]
    [InlineData("1110 011 00011 000001 110101 110110")]
    [InlineData("1110 100 00011 1000010 0110001 0110010")]
    [InlineData("1110 101 00011 0001000101111001")]
    public void Decode_OneKeyInEverySpelling_IsOneIdentity(string rest)
    {
        // GIAI+, filter 0, digits 9521141, then B12; for Code 40: 1600 x 2 + 40 x 31 + 32 + 1 = 4473.
        var bits = ("11111010 0000 " + "1001 0101 0010 0001 0001 0100 0001 " + rest).Replace(" ", "");
        Assert.Equal("8004:9521141B12", EpcDecoder.Key(Bytes(bits), bits.Length).ToString());
    }

    [Theory]
    [InlineData("11111010 0000 1010 0001 0010 0011 1111", "neither a digit")] // C64: BCD nibble A
    [InlineData("11111010 0000 1001 1110 110 00001 0000000", "reserved")] // indicator 6
    [InlineData("11111010 0000 1001 1110 000 00001 1111", "more digits")] // 15 in one digit
    [InlineData("11111010 0000 1001 1110 101 00011 0000000000000000", "Code 40")] // 0 is no triplet
    [InlineData("11111010 0000 1001 1110 101 00001 0000111000010000", "padding")] // two characters where one is announced
    [InlineData("11111010 0000 1001 1110 100 00001 0000001", "does not allow")] // control character
    [InlineData("11111010 0000 1001 1110 000 00000", "empty")] // length 0
    [InlineData("11111010 0000 1001 1001", "ends before")] // no terminator
    [InlineData("11110111 0000 01111001010100100001000101000001000100100011010001010100 000 00001 0001", "check digit")] // C04's GTIN ends with 3
    [InlineData("11110001 0000 0001100101010010000100010100000100010010001101000101 0100 000 00001 0001", "begin with the 0")] // GRAI+ with 1
    [InlineData("11111011 0000 0111 0010110 0110 11110", "date")] // date type 7
    [InlineData("11111011 0000 0100 0010110 1101 00001", "date")] // month 13
    public void Decode_BrokenPlusScheme_StaysRawWithTheReason(string bits, string reason)
    {
        bits = bits.Replace(" ", "");
        var padded = bits.PadRight((bits.Length + 7) / 8 * 8, '0');

        var raw = Assert.IsType<RawEpc>(EpcDecoder.Decode(Bytes(padded), bits.Length));

        Assert.Contains(reason, raw.Reason);
    }

    // Table 14-12 to 14-15: .uk as page 0 or 1, .co.uk as page 2, .tech as page 3 (read).
    [Theory]
    [InlineData("example.co.uk", "1 001001 1100101 1111000 1100001 1101101 1110000 1101100 1100101 0000010 0011001")]
    [InlineData("a.tech", "1 000011 1100001 0000011 0000000")]
    [InlineData("www.a.de", "1 000100 0011111 1100001 0000000 0110111")]
    [InlineData("a.zw", "1 000011 1100001 0000001 1110100")]
    [InlineData("a.me", "1 000011 1100001 0000001 0001010")]
    [InlineData("a.fr", "1 000011 1100001 0000000 1001010")]
    [InlineData("a.li", "1 000011 1100001 0000000 1111111")]
    [InlineData("a.gov.cn", "1 000011 1100001 0000010 0011111")]
    [InlineData("ABC", "0 000011 0000011010010100")]
    public void HostName_Sequences_AreThoseOfTheTables(string host, string bits)
    {
        var bytes = new byte[40];
        var writer = new BitWriter(bytes);

        Assert.Null(HostNameCode.Write(ref writer, "SGTIN++", host));

        Assert.Equal(bits.Replace(" ", ""), Binary(bytes)[..writer.Position]);
        var reader = new BitReader(bytes, writer.Position);
        Assert.Null(HostNameCode.Read(ref reader, out var read));
        Assert.Equal(host, read);
    }

    [Theory]
    [InlineData("")]
    [InlineData("a/b")]
    [InlineData("user@host")]
    [InlineData("x23456789012345678901234567890123456789012345678901234567890123.com")]
    public void HostName_ThatIsNone_IsRefused(string host)
    {
        var writer = new BitWriter(new byte[80]);

        Assert.Equal(("hostName", host), HostNameCode.Write(ref writer, "SGTIN++", host) is { } refusal ? (refusal.Field, refusal.Value) : default);
    }

    private static string Binary(byte[] bytes) => string.Concat(bytes.Select(b => b.ToString("b8", CultureInfo.InvariantCulture)));

    private static byte[] Bytes(string bits) =>
        [.. bits.PadRight((bits.Length + 7) / 8 * 8, '0').Chunk(8).Select(b => Convert.ToByte(new string(b), 2))];
}
