using System.Globalization;

namespace TagService.Domain.Identity.Tags;

/// <summary>The header of an extended TID, 20h to 2Fh of the TID bank: which segments follow, in this order (TDS 2.3, section 16.2; read).</summary>
/// <param name="Value">The sixteen bits.</param>
public readonly record struct XtidHeader(ushort Value)
{
    /// <summary>Bits of the serial number: 48 + 16 (v - 1) for a length code v of 1 to 7, else 0.</summary>
    public int SerialBits => Value >> 13 is var v and > 0 ? 48 + (16 * (v - 1)) : 0;

    /// <summary>A word about optional commands follows.</summary>
    public bool HasOptionalCommands => (Value & 0x1000) != 0;

    /// <summary>Four words about BlockWrite and BlockErase follow.</summary>
    public bool HasBlockWrite => (Value & 0x0800) != 0;

    /// <summary>Two words about user memory and BlockPermalock follow.</summary>
    public bool HasUserMemory => (Value & 0x0400) != 0;

    /// <summary>A word about lock bits follows.</summary>
    public bool HasLockBits => (Value & 0x0200) != 0;

    /// <summary>The header goes on in further words.</summary>
    public bool IsExtended => (Value & 0x0001) != 0;

    /// <summary>Four hexadecimal digits.</summary>
    public override string ToString() => Value.ToString("X4", CultureInfo.InvariantCulture);
}
