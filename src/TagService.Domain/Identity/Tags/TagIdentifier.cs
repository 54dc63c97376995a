using System.Globalization;

namespace TagService.Domain.Identity.Tags;

/// <summary>
/// The content of the TID bank: which chip answered (TDS 2.3, section 16; read. E0: Gen2 text, secondary; E3: from memory).
/// Only <see cref="ChipKey"/> tells two chips apart; a TID of which too little was read is incomplete, not different.
/// </summary>
public sealed record TagIdentifier
{
    /// <summary>Everything that was read, upper-case hexadecimal.</summary>
    public required string Hex { get; init; }

    /// <summary>Allocation class.</summary>
    public required AllocationClass AllocationClass { get; init; }

    /// <summary>Mask designer number of E2 (9 bits), manufacturer of E0 and E3 (8 bits).</summary>
    public int? MaskDesigner { get; init; }

    /// <summary>Tag model number of E2 (12 bits).</summary>
    public int? ModelNumber { get; init; }

    /// <summary>E2: an extended TID follows (X).</summary>
    public bool HasXtid { get; init; }

    /// <summary>E2: security commands are supported (S).</summary>
    public bool HasSecurity { get; init; }

    /// <summary>E2: files are supported (F).</summary>
    public bool HasFiles { get; init; }

    /// <summary>E2: the extended TID's header, if read.</summary>
    public XtidHeader? Xtid { get; init; }

    /// <summary>Serial number in hexadecimal, if the class has one and all of it was read.</summary>
    public string? Serial { get; init; }

    /// <summary>Bits that the class or the XTID header announces and that were not read; 0 when complete.</summary>
    public int MissingBits { get; init; }

    /// <summary>Was all read that tells this chip from others, as far as the part that was read says?</summary>
    public bool IsComplete => MissingBits == 0;

    /// <summary>
    /// What to compare chips by: the STID for E2, the hexadecimal digits for E0 and E3; null where the chip cannot be told from others
    /// of its model (no serial, incomplete, other class).
    /// </summary>
    public string? ChipKey => StidUri ?? (Serial is null ? null : Hex[..(AllocationClass == AllocationClass.E0 ? 16 : 20)]);

    /// <summary>Serialised tag identification URI: <c>urn:epc:stid:x</c> X, S, F and mask designer <c>.x</c> model <c>.x</c> serial.</summary>
    public string? StidUri => AllocationClass == AllocationClass.E2 && Serial is not null ? $"urn:epc:stid:x{Hex[2..5]}.x{Hex[5..8]}.x{Serial}" : null;

    /// <summary>Reads what there is of a TID.</summary>
    /// <param name="tid">The bank from bit 0 on, up to 64 bytes; more is ignored.</param>
    public static TagIdentifier Read(ReadOnlySpan<byte> tid)
    {
        tid = tid[..Math.Min(tid.Length, 64)];
        var hex = Convert.ToHexString(tid);
        return tid.IsEmpty ? new() { Hex = hex, AllocationClass = AllocationClass.None, MissingBits = 8 } : tid[0] switch
        {
            0xE0 => ReadSerialised(hex, tid, AllocationClass.E0, 64),
            0xE2 => ReadE2(hex, tid),
            0xE3 => ReadSerialised(hex, tid, AllocationClass.E3, 80),
            _ => new() { Hex = hex, AllocationClass = AllocationClass.Other },
        };
    }

    // The serial is the last 48 bits of the class's length.
    private static TagIdentifier ReadSerialised(string hex, ReadOnlySpan<byte> tid, AllocationClass allocationClass, int bits) => new()
    {
        Hex = hex,
        AllocationClass = allocationClass,
        MaskDesigner = tid.Length > 1 ? tid[1] : null,
        Serial = hex.Length >= bits / 4 ? hex[((bits - 48) / 4)..(bits / 4)] : null,
        MissingBits = Missing(hex, bits),
    };

    private static TagIdentifier ReadE2(string hex, ReadOnlySpan<byte> tid)
    {
        if (tid.Length < 4)
            return new() { Hex = hex, AllocationClass = AllocationClass.E2, MissingBits = Missing(hex, 32) };
        var flags = int.Parse(hex.AsSpan(2, 3), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);
        var read = new TagIdentifier
        {
            Hex = hex,
            AllocationClass = AllocationClass.E2,
            HasXtid = (flags & 0x800) != 0,
            HasSecurity = (flags & 0x400) != 0,
            HasFiles = (flags & 0x200) != 0,
            MaskDesigner = flags & 0x1FF,
            ModelNumber = int.Parse(hex.AsSpan(5, 3), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture),
        };
        if (!read.HasXtid)
            return read;
        if (tid.Length < 6)
            return read with { MissingBits = Missing(hex, 48) };
        var header = new XtidHeader((ushort)((tid[4] << 8) | tid[5]));
        var end = (48 + header.SerialBits) / 4;
        return read with
        {
            Xtid = header,
            Serial = header.SerialBits > 0 && hex.Length >= end ? hex[12..end] : null,
            MissingBits = Missing(hex, 48 + header.SerialBits),
        };
    }

    private static int Missing(string hex, int bits) => Math.Max(0, bits - (4 * hex.Length));
}
