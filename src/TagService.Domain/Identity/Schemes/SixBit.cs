namespace TagService.Domain.Identity.Schemes;

/// <summary>Strings of 6-bit characters ended by a zero (TDS 2.3, sections 14.3.7 to 14.4.9, table G-1; read).</summary>
internal static class SixBit
{
    /// <summary>Reads up to the zero.</summary>
    /// <returns>Null, or why the bits are no such string.</returns>
    public static string? ReadTerminated(ref BitReader reader, scoped Span<char> text, out int length)
    {
        for (length = 0; ; length++)
        {
            var code = reader.Read(6);
            if (code == 0)
                break;
            if (length == text.Length)
                return "A 6-bit string has more characters than its field allows.";
            text[length] = Character(code);
        }

        return CharacterSet.SixBit.Holds(text[..length]) ? null : "A 6-bit character is not in the GS1 set of 39.";
    }

    /// <summary>Reads a CAGE code (after a space) or a DoDAAC of six characters.</summary>
    public static string? ReadCode(ref BitReader reader, scoped Span<char> code, out int length)
    {
        length = 0;
        for (var i = 0; i < 6; i++)
        {
            var c = Character(reader.Read(6));
            if (i > 0 || c != ' ')
                code[length++] = c;
        }

        return CharacterSet.Cage.Holds(code[..length]) ? null : "The CAGE code or DoDAAC has a character that none can have.";
    }

    /// <summary>Writes characters; the low six bits of ASCII.</summary>
    public static void Write(ref BitWriter writer, ReadOnlySpan<char> text)
    {
        foreach (var c in text)
            writer.Write(c, 6);
    }

    /// <summary>Writes characters and the zero.</summary>
    public static void WriteTerminated(ref BitWriter writer, ReadOnlySpan<char> text)
    {
        Write(ref writer, text);
        writer.Write(0, 6);
    }

    // Codes 1 to 31 are A to _ of ASCII column 4 and 5; from 32 on they are ASCII itself.
    private static char Character(ulong code) => (char)(code < 32 ? code + 64 : code);
}
