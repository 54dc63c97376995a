namespace TagService.Domain.Registers;

/// <summary>A number with or without its unit.</summary>
internal static class QuantityText
{
    /// <summary>The quantity in our unit, or why not. A unit behind the number counts before the mapping's.</summary>
    /// <param name="value">A typed number, or text.</param>
    /// <param name="own">Our unit; null for a plain number.</param>
    /// <param name="stated">Unit of values that carry none; null means our own.</param>
    /// <param name="mark">Decimal mark of text.</param>
    public static (decimal Value, string? Error) Parse(in RegisterValue value, RegisterUnit? own, RegisterUnit? stated, DecimalMark mark)
    {
        var text = value.Text.AsSpan().Trim();
        var end = EndOfNumber(text);
        var number = text[..end].TrimEnd();
        var behind = text[end..].Trim();
        switch (NumberText.Parse(number, value.Kind == RegisterValueKind.Number ? DecimalMark.Point : mark, out var read))
        {
            case NumberOutcome.Ambiguous:
                return (0, "It can be a number with decimals or with thousands; state the decimal mark in the mapping.");
            case NumberOutcome.NotANumber:
                return (0, "It is no number.");
        }

        var unit = stated ?? own;
        if (!behind.IsEmpty)
        {
            unit = own is null ? null : RegisterUnits.Find(behind.ToString(), own.Dimension);
            if (unit is null)
                return (0, $"\"{MappingTexts.Quote(behind.ToString())}\" behind the number is no unit of this field.");
        }

        if (own is null || unit is null)
            return (read, null);
        return unit.Convert(read, own) is { } converted ? (converted, null) : (0, "It is out of any range.");
    }

    private static int EndOfNumber(ReadOnlySpan<char> text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            var exponent = c is 'e' or 'E' && i > 0 && i + 1 < text.Length && (char.IsAsciiDigit(text[i + 1]) || (text[i + 1] is '+' or '-' && i + 2 < text.Length));
            // 5' is five feet, 1'234 a number with groups.
            var groups = c is '\'' or '’' && i + 3 < text.Length && char.IsAsciiDigit(text[i + 1]) && char.IsAsciiDigit(text[i + 3]);
            if (!exponent && !groups && !char.IsAsciiDigit(c) && c is not ('+' or '-' or '−' or '.' or ',' or ' ' or '\u00A0' or '\u202F' or '\u2009'))
                return i;
        }

        return text.Length;
    }
}
