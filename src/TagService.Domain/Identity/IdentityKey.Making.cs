using System.Globalization;
using System.Numerics;

namespace TagService.Domain.Identity;

/// <content>How keys are made. Each value has one inner form, so that equality compares members.</content>
public readonly partial struct IdentityKey
{
    private const int GidClassBits = 24;
    private const int GidSerialBits = 36;
    private const int UsdodSerialBits = 36;

    /// <summary>A GS1 key of digits, together 38 at most.</summary>
    internal static IdentityKey OfDigits(IdentityKind kind, UInt128 primary, int primaryDigits, ulong serial = 0, int serialDigits = 0)
    {
        // TDS 2.3, section 6.3: extension 0 means the GLN itself.
        if (kind == IdentityKind.Sgln && serialDigits == 1 && serial == 0)
            serialDigits = 0;
        return new(kind, (primary * PowersOfTen.Of(serialDigits)) + serial, null, primaryDigits + serialDigits, primaryDigits);
    }

    /// <summary>A GS1 key of characters; digits alone take the form of <see cref="OfDigits"/>.</summary>
    internal static IdentityKey OfText(IdentityKind kind, ReadOnlySpan<char> primary, ReadOnlySpan<char> serial)
    {
        if (kind == IdentityKind.Sgln && serial is "0")
            serial = [];
        Span<char> value = stackalloc char[primary.Length + serial.Length];
        primary.CopyTo(value);
        serial.CopyTo(value[primary.Length..]);
        return value.Length <= PowersOfTen.MaxDigits && CharacterSet.Digits.Holds(value)
            ? new(kind, UInt128.Parse(value, NumberStyles.None, CultureInfo.InvariantCulture), null, value.Length, primary.Length)
            : new(kind, 0, value.ToString(), value.Length, primary.Length);
    }

    /// <summary>A GID: 28, 24 and 36 bits.</summary>
    internal static IdentityKey OfGid(ulong manager, ulong objectClass, ulong serial) =>
        new(IdentityKind.Gid, ((((UInt128)manager << GidClassBits) | objectClass) << GidSerialBits) | serial, null, 0, 0);

    /// <summary>A USDoD identifier: six ASCII characters, a space before a CAGE code, and 36 bits.</summary>
    internal static IdentityKey OfUsdod(ulong code, ulong serial) =>
        new(IdentityKind.Usdod, ((UInt128)code << UsdodSerialBits) | serial, null, 0, 0);

    /// <summary>An ADI: code, part number (may be empty) and serial, of 6-bit characters, which have no dot.</summary>
    internal static IdentityKey OfAdi(ReadOnlySpan<char> code, ReadOnlySpan<char> part, ReadOnlySpan<char> serial)
    {
        var text = $"{code}.{part}.{serial}";
        return new(IdentityKind.Adi, 0, text, text.Length, 0);
    }

    /// <summary>
    /// Bits of no known scheme, exactly as many as were read: zeros put behind them could make a shortened EPC one of a scheme.
    /// </summary>
    /// <param name="epc">The bits.</param>
    /// <param name="bits">How many, 0 to 496.</param>
    /// <param name="afi">Application family identifier when the content is not GS1's.</param>
    internal static IdentityKey OfRaw(ReadOnlySpan<byte> epc, int bits, byte? afi)
    {
        UInt128 number = 0;
        string? text = null;
        if (bits <= 128)
            number = bits == 0 ? 0 : new BitReader(epc, bits).ReadWide(bits);
        else
            text = (new BigInteger(epc[..((bits + 7) / 8)], isUnsigned: true, isBigEndian: true) >> (-bits & 7)).ToString("X", CultureInfo.InvariantCulture);
        return new(IdentityKind.Raw, number, text, bits, afi ?? 0, afi is not null);
    }

    internal (ulong Manager, ulong ObjectClass, ulong Serial) GidFields => (
        Low(_number >> (GidClassBits + GidSerialBits)),
        Low(_number >> GidSerialBits) & ((1ul << GidClassBits) - 1),
        Low(_number) & ((1ul << GidSerialBits) - 1));

    internal (ulong Code, ulong Serial) UsdodFields =>
        (Low(_number >> UsdodSerialBits), Low(_number) & ((1ul << UsdodSerialBits) - 1));

    internal (string Hex, int Bits, byte? Afi) RawFields
    {
        get
        {
            var digits = (_length + 3) / 4;
            var hex = _text ?? _number.ToString("X", CultureInfo.InvariantCulture);
            // BigInteger writes a zero before numbers whose first digit would look like a sign.
            hex = hex.TrimStart('0').PadLeft(digits, '0');
            return (hex, _length, _hasAfi ? _split : null);
        }
    }

    private static ulong Low(UInt128 number) => unchecked((ulong)number);
}
