namespace TagService.Domain.Identity;

/// <summary>
/// How the value of one kind of GS1 key is put together. Keys of fixed length:
/// pad zeros, leading digit (indicator or extension), company prefix, reference, check digit, trailing digits; then the serial.
/// Source: TDS 2.3, sections 6.3 and 7 (secondary for the sections, read for the coding tables 14-5 to 14-45).
/// </summary>
internal sealed record KeyFormat(IdentityKind Kind, string UrnName, string Ai)
{
    public const string WrongDigits = "The key has not the digits its AI asks for.";
    public const string NoPad = "The GRAI does not begin with the 0 that fills AI 8003 up to 14 digits.";
    public const string WrongCheckDigit = "The check digit is wrong.";
    public const string WrongKey = "The key is empty, too long or has characters that its AI does not allow.";
    public const string NoPrefix = "The key does not begin with the digits of a company prefix.";
    public const string NoSerial = "There is no serial: a class of things, not one of them.";
    public const string WrongSerial = "The serial is too long or has characters that its AI does not allow.";

    /// <summary>AI of the serial where it is an element of its own; null where the serial follows the key within one AI.</summary>
    public string? SerialAi { get; init; }

    /// <summary>Zeros before the key that the AI's format asks for (GRAI).</summary>
    public int PadDigits { get; init; }

    /// <summary>Digits that stand before the company prefix in the key and behind it in the URN.</summary>
    public int LeadDigits { get; init; }

    /// <summary>Digits that the check digit covers; 0 for keys of variable length.</summary>
    public int BodyDigits { get; init; }

    /// <summary>Digits behind the check digit (ITIP: piece and total).</summary>
    public int TailDigits { get; init; }

    /// <summary>Most characters of a key of variable length.</summary>
    public int MaxPrimary { get; init; }

    /// <summary>Most characters of the serial; 0 if there is none.</summary>
    public int MaxSerial { get; init; }

    public bool SerialOptional { get; init; }

    public CharacterSet PrimarySet { get; init; } = CharacterSet.Digits;

    public CharacterSet SerialSet { get; init; } = CharacterSet.Gs1;

    public bool IsFixed => BodyDigits > 0;

    public int PrimaryDigits => PadDigits + BodyDigits + 1 + TailDigits;

    /// <summary>Digits of reference and leading digit beside a company prefix of this length (the K of the partition tables).</summary>
    public int OtherDigits(int companyPrefixLength) => BodyDigits - companyPrefixLength;

    /// <summary>Place of the company prefix in the key's value.</summary>
    public int PrefixStart => PadDigits + LeadDigits;

    /// <summary>Why a value is no key of this kind, in words that need no value; null when it is one.</summary>
    public string? Fault(ReadOnlySpan<char> primary, ReadOnlySpan<char> serial)
    {
        if (IsFixed)
        {
            if (primary.Length != PrimaryDigits || !CharacterSet.Digits.Holds(primary))
                return WrongDigits;
            if (PadDigits > 0 && primary[0] != '0')
                return NoPad;
            var covered = ulong.Parse(primary.Slice(PadDigits, BodyDigits), System.Globalization.CultureInfo.InvariantCulture);
            if (CheckDigit.Of(covered) != primary[PadDigits + BodyDigits] - '0')
                return WrongCheckDigit;
        }
        else if (primary.IsEmpty || primary.Length > MaxPrimary || !PrimarySet.Holds(primary))
        {
            return WrongKey;
        }
        else if (!char.IsAsciiDigit(primary[0]))
        {
            return NoPrefix;
        }

        if (serial.IsEmpty)
            return MaxSerial == 0 || SerialOptional ? null : NoSerial;
        return serial.Length <= MaxSerial && SerialSet.Holds(serial)
            ? null
            : WrongSerial;
    }

    /// <summary>The key's number from company prefix and other digits, in the order of the partition tables.</summary>
    /// <param name="prefix">Company prefix.</param>
    /// <param name="other">Leading digit and reference.</param>
    /// <param name="companyPrefixLength">Digits of the prefix.</param>
    /// <param name="tail">Trailing digits.</param>
    public UInt128 Compose(ulong prefix, ulong other, int companyPrefixLength, ulong tail)
    {
        var referenceUnit = PowersOfTen.Of64(OtherDigits(companyPrefixLength) - LeadDigits);
        var (lead, reference) = LeadDigits == 0 ? (0, other) : Math.DivRem(other, referenceUnit);
        var body = (lead * PowersOfTen.Of64(BodyDigits - 1)) + (prefix * referenceUnit) + reference;
        return (((UInt128)body * 10) + (uint)CheckDigit.Of(body)) * PowersOfTen.Of(TailDigits) + tail;
    }

    /// <summary>The reverse of <see cref="Compose"/>.</summary>
    public (ulong Prefix, ulong Other, ulong Tail) Split(UInt128 primary, int companyPrefixLength)
    {
        var (withCheck, tail) = UInt128.DivRem(primary, PowersOfTen.Of(TailDigits));
        var (lead, rest) = LeadDigits == 0
            ? (0, (ulong)(withCheck / 10))
            : Math.DivRem((ulong)(withCheck / 10), PowersOfTen.Of64(BodyDigits - 1));
        var referenceUnit = PowersOfTen.Of64(OtherDigits(companyPrefixLength) - LeadDigits);
        var (prefix, reference) = Math.DivRem(rest, referenceUnit);
        return (prefix, (lead * referenceUnit) + reference, (ulong)tail);
    }
}
