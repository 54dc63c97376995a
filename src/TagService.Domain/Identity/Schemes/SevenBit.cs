namespace TagService.Domain.Identity.Schemes;

/// <summary>Strings of 7-bit characters filled up with zeros (TDS 2.3, sections 14.3.2, 14.4.2, 14.4.5; read).</summary>
internal static class SevenBit
{
    /// <summary>Reads a field of fixed width.</summary>
    /// <returns>Null, or why the bits are no such string.</returns>
    public static string? Read(ref BitReader reader, int bits, scoped Span<char> text, out int length)
    {
        length = 0;
        var ended = false;
        for (var left = bits; left >= 7; left -= 7)
        {
            var code = (char)reader.Read(7);
            if (code == 0)
                ended = true;
            else if (ended)
                return "A character follows the end of the string.";
            else
                text[length++] = code;
        }

        // Widths of GIAI-202 are no multiples of 7.
        if (bits % 7 != 0 && reader.Read(bits % 7) != 0)
            return "Bits behind the end of the string are not zero.";
        if (length == 0)
            return "The string is empty.";
        return CharacterSet.Gs1.Holds(text[..length]) ? null : "A 7-bit character is not in the GS1 set of 82.";
    }

    /// <summary>Writes a string and zeros up to the width.</summary>
    public static void Write(ref BitWriter writer, ReadOnlySpan<char> text, int bits)
    {
        foreach (var c in text)
            writer.Write(c, 7);
        for (var left = bits - (7 * text.Length); left > 0; left -= 64)
            writer.Write(0, Math.Min(left, 64));
    }
}
