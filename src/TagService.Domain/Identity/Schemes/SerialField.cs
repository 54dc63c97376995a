using System.Globalization;

namespace TagService.Domain.Identity.Schemes;

/// <summary>How the older schemes write the serial behind the partitioned fields (TDS 2.3, sections 14.3 and 14.4; read).</summary>
internal enum SerialCoding
{
    /// <summary>No serial: bits that must be zero.</summary>
    Zeros,

    /// <summary>Binary integer; no leading zeros.</summary>
    Integer,

    /// <summary>Digits with leading zeros kept by a 1 put before them.</summary>
    NumericString,

    /// <summary>7-bit characters, zeros behind.</summary>
    Characters,
}

/// <summary>A serial field of fixed width.</summary>
internal readonly record struct SerialField(SerialCoding Coding, int Bits)
{
    /// <summary>Reads the serial and makes the key with it.</summary>
    public string? Read(ref BitReader reader, IdentityKind kind, UInt128 primary, int primaryDigits, out IdentityKey key)
    {
        key = default;
        switch (Coding)
        {
            case SerialCoding.Zeros:
                key = IdentityKey.OfDigits(kind, primary, primaryDigits);
                return reader.Read(Bits) == 0 ? null : "Bits that the scheme reserves are not zero.";
            case SerialCoding.Integer:
                var serial = reader.Read(Bits);
                key = IdentityKey.OfDigits(kind, primary, primaryDigits, serial, PowersOfTen.Digits(serial));
                return null;
            case SerialCoding.NumericString:
                var marked = reader.Read(Bits);
                var digits = PowersOfTen.Digits(marked) - 1;
                var mark = PowersOfTen.Of64(digits);
                if (digits == 0 || marked / mark != 1)
                    return "The serial does not begin with the 1 that keeps its leading zeros.";
                key = IdentityKey.OfDigits(kind, primary, primaryDigits, marked - mark, digits);
                return null;
            default:
                Span<char> text = stackalloc char[primaryDigits + (Bits / 7)];
                IdentityKey.WriteDigits(text[..primaryDigits], primary);
                var fault = SevenBit.Read(ref reader, Bits, text[primaryDigits..], out var length);
                key = IdentityKey.OfText(kind, text[..primaryDigits], text.Slice(primaryDigits, length));
                return fault;
        }
    }

    /// <summary>Writes the serial, or says why it does not go in.</summary>
    public Refusal? Write(ref BitWriter writer, string scheme, ReadOnlySpan<char> serial)
    {
        switch (Coding)
        {
            case SerialCoding.Zeros:
                writer.Write(0, Bits);
                return null;
            case SerialCoding.Integer:
                var most = (1ul << Bits) - 1;
                if (!IsPlainNumber(serial, most, out var number))
                    return Refuse(scheme, serial, string.Create(CultureInfo.InvariantCulture, $"digits without leading zeros, 0 to {most}"));
                writer.Write(number, Bits);
                return null;
            case SerialCoding.NumericString:
                // Section 14.3.6: 2 x 10^digits must stay below 2^bits.
                var digits = PowersOfTen.Digits(((1ul << Bits) - 1) / 2) - 1;
                if (serial.Length > digits || !ulong.TryParse(serial, NumberStyles.None, CultureInfo.InvariantCulture, out number))
                    return Refuse(scheme, serial, string.Create(CultureInfo.InvariantCulture, $"1 to {digits} digits"));
                writer.Write(PowersOfTen.Of64(serial.Length) + number, Bits);
                return null;
            default:
                if (serial.Length > Bits / 7)
                    return Refuse(scheme, serial, $"at most {Bits / 7} characters");
                SevenBit.Write(ref writer, serial, Bits);
                return null;
        }
    }

    /// <summary>Digits without leading zeros up to a limit?</summary>
    public static bool IsPlainNumber(ReadOnlySpan<char> text, ulong most, out ulong number) =>
        ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number <= most && (text[0] != '0' || text.Length == 1);

    private static Refusal Refuse(string scheme, ReadOnlySpan<char> serial, string accepted) =>
        new("serial", serial.ToString(), $"The serial does not go into {scheme}.", accepted);
}
