using TagService.Domain.Identity.Schemes;
using TagService.Domain.Identity.Tags;

namespace TagService.Domain.Identity;

/// <summary>Bits of a tag's EPC field to identity (TDS 2.3, sections 14.4, 14.5 and 15.2; read). Never fails on content.</summary>
public static class EpcDecoder
{
    /// <summary>Most bits of an EPC field: 31 words, TDS 2.3 section 9.3.</summary>
    public const int MaxBits = 496;

    /// <summary>The identity alone; nothing is allocated when its value has digits only. Vectors and fuzzing in the tests.</summary>
    /// <param name="epc">The EPC field from bit 20h on.</param>
    /// <param name="bits">How many bits of it count, 0 to 496.</param>
    /// <param name="pc">PC word, if the reader reports it.</param>
    /// <exception cref="ArgumentOutOfRangeException">More bits than there are bytes, or than a tag can hold.</exception>
    public static IdentityKey Key(ReadOnlySpan<byte> epc, int bits, PcWord? pc = null)
    {
        bits = Length(epc, bits, pc);
        return Read(epc, bits, pc, out _, out var content) is null ? content.Key : Raw(epc, bits, pc);
    }

    /// <summary>Scheme, fields and identity, or the raw bits and why they stay raw.</summary>
    /// <inheritdoc cref="Key" path="/param"/>
    /// <inheritdoc cref="Key" path="/exception"/>
    public static EpcDecoding Decode(ReadOnlySpan<byte> epc, int bits, PcWord? pc = null)
    {
        bits = Length(epc, bits, pc);
        return Read(epc, bits, pc, out var scheme, out var content) is { } fault
            ? new RawEpc(Raw(epc, bits, pc), fault)
            : new DecodedEpc(scheme!, content);
    }

    /// <summary>Reads, or says in words why not.</summary>
    private static string? Read(ReadOnlySpan<byte> epc, int bits, PcWord? pc, out EpcScheme? scheme, out EpcContent content)
    {
        content = default;
        scheme = null;
        if (pc is { IsIso: true })
            return "The toggle bit of the PC word is set: the content follows an ISO/IEC 15961 application family, not GS1.";
        if (bits < 8)
            return "The EPC field is empty.";
        scheme = EpcSchemes.Find(epc[0]);
        if (scheme is null)
            return UnknownHeader(epc[0]);
        var reader = new BitReader(epc, bits);
        _ = reader.Read(8);
        var fault = scheme.Read(ref reader, out content);
        return reader.Overrun ? "The EPC field ends before its scheme does." : fault;
    }

    private static IdentityKey Raw(ReadOnlySpan<byte> epc, int bits, PcWord? pc) =>
        IdentityKey.OfRaw(epc, bits, pc is { IsIso: true } word ? word.Afi : null);

    // The PC word says how much of a longer memory read is the EPC. A shorter field is read as far as it goes.
    private static int Length(ReadOnlySpan<byte> epc, int bits, PcWord? pc)
    {
        var most = Math.Min(MaxBits, epc.Length * 8);
        if (bits < 0 || bits > most)
            throw new ArgumentOutOfRangeException(nameof(bits), bits, FormattableString.Invariant($"bits is {bits}; accepted: 0 to {most}."));
        return pc is { } word ? Math.Min(bits, word.EpcBits) : bits;
    }

    private static string UnknownHeader(byte header) => header switch
    {
        0x00 => "Header 00 marks a tag that was never programmed.",
        0xE2 => "Header E2 is reserved for ever: these bits look like a TID, not an EPC.",
        0xFF => "Header FF is reserved for longer headers.",
        _ => "The header is not assigned to a scheme (TDS 2.3, table 14-1).",
    };
}
