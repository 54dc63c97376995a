namespace TagService.Domain.Identity.Schemes;

/// <summary>
/// Leading digits four bits each, then 1111 at the end of an all-digit string, or 1110 and the rest, from its first character that is
/// no digit on, as <see cref="VariableAlphanumeric"/> (TDS 2.3, section 14.5.5; read). The split is not that of the company prefix.
/// </summary>
internal static class DelimitedNumeric
{
    private const ulong Terminator = 0xF;
    private const ulong Delimiter = 0xE;

    /// <summary>Reads a string.</summary>
    /// <returns>Null, or why the bits are no such string.</returns>
    public static string? Read(ref BitReader reader, scoped Span<char> text, out int length)
    {
        for (length = 0; ; length++)
        {
            var nibble = reader.Read(4);
            switch (nibble)
            {
                case Terminator:
                    return null;
                case Delimiter:
                    var fault = VariableAlphanumeric.Read(ref reader, text[length..], out var rest);
                    length += rest;
                    return fault;
                case > 9:
                    return "Four bits are neither a digit nor the end of the digits.";
            }

            if (length == text.Length)
                return "The key is longer than its AI allows.";
            text[length] = (char)('0' + nibble);
        }
    }

    /// <summary>Writes a string that begins with a digit.</summary>
    public static void Write(ref BitWriter writer, ReadOnlySpan<char> text)
    {
        var digits = text.IndexOfAnyExceptInRange('0', '9');
        foreach (var c in digits < 0 ? text : text[..digits])
            writer.Write((ulong)(c - '0'), 4);
        writer.Write(digits < 0 ? Terminator : Delimiter, 4);
        if (digits >= 0)
            VariableAlphanumeric.Write(ref writer, text[digits..]);
    }
}
