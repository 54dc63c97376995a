using System.Buffers;

namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// The <c>+</c> schemes' strings: indicator of 3 bits, length of 5 bits, characters in the way the indicator names (TDS 2.3, section
/// 14.5.6, tables 14-5 to 14-9 and E; read). Writers may take any way that has the characters, so one string has several spellings:
/// equality is decided on what was decoded. Written here with the fewest bits, the lower indicator when two need the same.
/// </summary>
internal static class VariableAlphanumeric
{
    private const string UpperHex = "0123456789ABCDEF";
    private const string LowerHex = "0123456789abcdef";
    private const string Base64 = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

    private static readonly SearchValues<char> UpperHexCharacters = SearchValues.Create(UpperHex);
    private static readonly SearchValues<char> LowerHexCharacters = SearchValues.Create(LowerHex);
    private static readonly SearchValues<char> Base64Characters = SearchValues.Create(Base64);

    private enum Way
    {
        Integer,
        UpperHex,
        LowerHex,
        Base64,
        SevenBit,
        Code40,
    }

    /// <summary>Reads a string; the characters its AI allows are the caller's check.</summary>
    /// <returns>Null, or why the bits are no such string.</returns>
    public static string? Read(ref BitReader reader, scoped Span<char> text, out int length)
    {
        var way = (Way)reader.Read(3);
        length = (int)reader.Read(5);
        if (length == 0 || length > text.Length)
        {
            length = 0;
            return "The serial is empty or longer than its AI allows.";
        }

        text = text[..length];
        switch (way)
        {
            case Way.Integer:
                return VariableNumeric.ReadDigits(ref reader, text);
            case Way.UpperHex:
                ReadEach(ref reader, text, UpperHex, 4);
                return null;
            case Way.LowerHex:
                ReadEach(ref reader, text, LowerHex, 4);
                return null;
            case Way.Base64:
                ReadEach(ref reader, text, Base64, 6);
                return null;
            case Way.SevenBit:
                foreach (ref var c in text)
                    c = (char)reader.Read(7);
                return null;
            case Way.Code40:
                return UrnCode40.Read(ref reader, text);
            default:
                return "The encoding indicator is reserved (6 or 7).";
        }
    }

    /// <summary>Writes a string of 1 to 31 characters that its AI allows.</summary>
    public static void Write(ref BitWriter writer, ReadOnlySpan<char> text)
    {
        var way = Best(text);
        writer.Write((ulong)way, 3);
        writer.Write((ulong)text.Length, 5);
        switch (way)
        {
            case Way.Integer:
                VariableNumeric.WriteDigits(ref writer, text);
                break;
            case Way.UpperHex:
                WriteEach(ref writer, text, UpperHex, 4);
                break;
            case Way.LowerHex:
                WriteEach(ref writer, text, LowerHex, 4);
                break;
            case Way.Base64:
                WriteEach(ref writer, text, Base64, 6);
                break;
            case Way.SevenBit:
                foreach (var c in text)
                    writer.Write(c, 7);
                break;
            default:
                UrnCode40.Write(ref writer, text);
                break;
        }
    }

    private static Way Best(ReadOnlySpan<char> text)
    {
        if (CharacterSet.Digits.Holds(text))
            return Way.Integer;
        if (!text.ContainsAnyExcept(UpperHexCharacters))
            return Way.UpperHex;
        if (!text.ContainsAnyExcept(LowerHexCharacters))
            return Way.LowerHex;
        var code40 = UrnCode40.Holds(text) ? UrnCode40.Bits(text.Length) : int.MaxValue;
        if (!text.ContainsAnyExcept(Base64Characters))
            return 6 * text.Length <= code40 ? Way.Base64 : Way.Code40;
        return 7 * text.Length <= code40 ? Way.SevenBit : Way.Code40;
    }

    private static void ReadEach(ref BitReader reader, scoped Span<char> text, string alphabet, int bits)
    {
        foreach (ref var c in text)
            c = alphabet[(int)reader.Read(bits)];
    }

    private static void WriteEach(ref BitWriter writer, ReadOnlySpan<char> text, string alphabet, int bits)
    {
        foreach (var c in text)
            writer.Write((ulong)alphabet.IndexOf(c, StringComparison.Ordinal), bits);
    }
}
