namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// ADI-var: filter 6 bits, CAGE code or DoDAAC, part number of 0 to 32 and serial of 1 to 30 characters, each ended by a zero
/// (TDS 2.3, section 14.6.14; read). <c>#</c> may only begin a serial, of a part that is not serialised by tradition.
/// </summary>
internal sealed class AdiVarScheme() : EpcScheme("ADI-var", 0x3B, IdentityKind.Adi, null)
{
    internal const int MaxPart = 32;
    internal const int MaxSerial = 30;

    public override int HighestFilter => 63;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        content = default;
        var filter = (int)reader.Read(6);
        Span<char> code = stackalloc char[6];
        Span<char> part = stackalloc char[MaxPart];
        Span<char> serial = stackalloc char[MaxSerial];
        var partLength = 0;
        var fault = SixBit.ReadCode(ref reader, code, out var codeLength) ?? SixBit.ReadTerminated(ref reader, part, out partLength);
        if (fault is not null)
            return fault;
        fault = SixBit.ReadTerminated(ref reader, serial, out var serialLength) ?? Fault(part[..partLength], serial[..serialLength]);
        if (fault is null)
            content = new(IdentityKey.OfAdi(code[..codeLength], part[..partLength], serial[..serialLength]), filter);
        return fault;
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        var fields = content.Key.Value().Split('.');
        writer.Write((ulong)content.Filter, 6);
        if (fields[0].Length == 5)
            writer.Write(' ', 6);
        SixBit.Write(ref writer, fields[0]);
        SixBit.WriteTerminated(ref writer, fields[1]);
        SixBit.WriteTerminated(ref writer, fields[2]);
        return null;
    }

    /// <summary>What part number and serial break of the coding table's notes, or null.</summary>
    internal static string? Fault(ReadOnlySpan<char> part, ReadOnlySpan<char> serial)
    {
        if (serial.IsEmpty)
            return "The serial is empty.";
        return part.Contains('#') || serial[1..].Contains('#') ? "The character # stands elsewhere than at the beginning of the serial." : null;
    }
}
