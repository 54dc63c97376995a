using System.Globalization;

namespace TagService.Domain.Identity.Tags;

/// <summary>
/// The protocol control word at 10h to 1Fh of the EPC bank (TDS 2.3, section 9.3; read). During inventory a reader may report a PC whose
/// low byte holds XPC bits instead, so nothing here takes the low byte for identity unless the toggle bit is set.
/// </summary>
/// <param name="Value">The sixteen bits.</param>
public readonly record struct PcWord(ushort Value)
{
    private const int LengthShift = 11;

    /// <summary>Length of the EPC field in 16-bit words, 0 to 31.</summary>
    public int EpcWords => Value >> LengthShift;

    /// <summary>Length of the EPC field in bits, 0 to 496.</summary>
    public int EpcBits => 16 * EpcWords;

    /// <summary>User memory is there and holds something (UMI; RUM in Gen2v3).</summary>
    public bool HasUserMemory => (Value & 0x0400) != 0;

    /// <summary>An extended protocol control word is set (XI).</summary>
    public bool HasXpc => (Value & 0x0200) != 0;

    /// <summary>Toggle bit: the content belongs to an ISO/IEC 15961 application family and is no GS1 EPC.</summary>
    public bool IsIso => (Value & 0x0100) != 0;

    /// <summary>Application family identifier; of meaning only with <see cref="IsIso"/>.</summary>
    public byte Afi => unchecked((byte)Value);

    /// <summary>Attribute or XPC bits; of meaning only without <see cref="IsIso"/>.</summary>
    public byte AttributeBits => unchecked((byte)Value);

    /// <summary>The word to write with an EPC: ceil(bits/16) in the length, all else zero (TDS 2.3, section 15.1.1).</summary>
    /// <param name="epcBits">Bits of the EPC, 0 to 496.</param>
    /// <exception cref="ArgumentOutOfRangeException">Longer than an EPC field can be.</exception>
    public static PcWord ForBits(int epcBits) => epcBits is >= 0 and <= EpcDecoder.MaxBits
        ? new((ushort)((epcBits + 15) / 16 << LengthShift))
        : throw new ArgumentOutOfRangeException(nameof(epcBits), epcBits, $"epcBits is {epcBits}; accepted: 0 to {EpcDecoder.MaxBits}.");

    /// <summary>Reads four hexadecimal digits.</summary>
    /// <param name="hex">The digits.</param>
    /// <param name="pc">The word.</param>
    public static bool TryParse(ReadOnlySpan<char> hex, out PcWord pc)
    {
        var read = ushort.TryParse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var value) && hex.Length == 4;
        pc = read ? new(value) : default;
        return read;
    }

    /// <summary>Four hexadecimal digits.</summary>
    public override string ToString() => Value.ToString("X4", CultureInfo.InvariantCulture);
}
