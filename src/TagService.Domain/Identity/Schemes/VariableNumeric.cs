using System.Globalization;

namespace TagService.Domain.Identity.Schemes;

/// <summary>Digits as a length and a binary integer; the length keeps leading zeros (TDS 2.3, sections 14.5.6.1 and 14.5.13; read).</summary>
internal static class VariableNumeric
{
    /// <summary>Reads so many digits.</summary>
    public static string? ReadDigits(ref BitReader reader, scoped Span<char> digits)
    {
        var value = reader.ReadWide(PowersOfTen.Bits(digits.Length));
        if (value >= PowersOfTen.Of(digits.Length))
            return "A number has more digits than the length before it says.";
        IdentityKey.WriteDigits(digits, value);
        return null;
    }

    /// <summary>Writes digits.</summary>
    public static void WriteDigits(ref BitWriter writer, ReadOnlySpan<char> digits) =>
        writer.WriteWide(UInt128.Parse(digits, NumberStyles.None, CultureInfo.InvariantCulture), PowersOfTen.Bits(digits.Length));

    /// <summary>Reads a length of 4 bits and the digits: serials of CPI+ and SGCN+.</summary>
    public static string? Read(ref BitReader reader, scoped Span<char> text, out int length)
    {
        length = (int)reader.Read(4);
        if (length == 0 || length > text.Length)
        {
            length = 0;
            return "The serial is empty or longer than its AI allows.";
        }

        return ReadDigits(ref reader, text[..length]);
    }

    /// <summary>The reverse of <see cref="Read"/>.</summary>
    public static void Write(ref BitWriter writer, ReadOnlySpan<char> digits)
    {
        writer.Write((ulong)digits.Length, 4);
        WriteDigits(ref writer, digits);
    }
}
