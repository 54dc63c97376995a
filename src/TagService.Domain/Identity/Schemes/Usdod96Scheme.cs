namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// USDoD-96: filter 4 bits, CAGE code or DoDAAC as six ASCII characters (a space before a CAGE code), serial 36 bits. TDS leaves the
/// layout to the defence supplier's guide; this one reproduces the row USDOD-96 of TDS 2.3, annex E.3.
/// </summary>
internal sealed class Usdod96Scheme() : EpcScheme("USDoD-96", 0x2F, IdentityKind.Usdod, 96)
{
    public override int HighestFilter => 15;

    internal override string? Read(ref BitReader reader, out EpcContent content)
    {
        var filter = (int)reader.Read(4);
        var code = reader.Read(48);
        content = new(IdentityKey.OfUsdod(code, reader.Read(36)), filter);
        Span<char> text = stackalloc char[6];
        return CharacterSet.Cage.Holds(text[..Code(code, text)]) ? null : "The CAGE code or DoDAAC has a character that none can have.";
    }

    internal override Refusal? Write(ref BitWriter writer, in EpcContent content)
    {
        var (code, serial) = content.Key.UsdodFields;
        writer.Write((ulong)content.Filter, 4);
        writer.Write(code, 48);
        writer.Write(serial, 36);
        return null;
    }

    /// <summary>The code's characters without the space before a CAGE code.</summary>
    internal static int Code(ulong packed, Span<char> text)
    {
        var length = 0;
        for (var shift = 40; shift >= 0; shift -= 8)
        {
            var c = (char)((packed >> shift) & 0xFF);
            if (shift < 40 || c != ' ')
                text[length++] = c;
        }

        return length;
    }

    /// <summary>Five or six characters as 48 bits.</summary>
    internal static ulong Pack(ReadOnlySpan<char> code)
    {
        var packed = code.Length == 5 ? (ulong)' ' : 0;
        foreach (var c in code)
            packed = (packed << 8) | c;
        return packed;
    }
}
