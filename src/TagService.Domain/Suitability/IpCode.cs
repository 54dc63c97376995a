using System.Collections.Immutable;

namespace TagService.Domain.Suitability;

/// <summary>One IP code: protection against solids (0 to 6) and water (0 to 9), IEC 60529.</summary>
/// <param name="Solids">First numeral; 0 for X.</param>
/// <param name="Water">Second numeral; 0 for X.</param>
public readonly record struct IpCode(int Solids, int Water)
{
    private static readonly ImmutableArray<string> s_names =
        [.. Enumerable.Range(0, 70).Select(i => $"IP{i / 10}{i % 10}")];

    /// <summary>The code as written on a plate, for example <c>IP66</c>.</summary>
    public string Name => NameOf(Solids, Water);

    /// <summary>
    /// Reads <c>IP66</c>, <c>ip 66</c>, <c>66</c>, <c>IPX7</c>, <c>IP6X</c>; the K of ISO 20653 (<c>IP6K9K</c>,
    /// <c>IP69K</c>) is taken as the same numeral.
    /// </summary>
    /// <param name="text">The code.</param>
    /// <param name="code">The numerals.</param>
    public static bool TryParse(ReadOnlySpan<char> text, out IpCode code)
    {
        code = default;
        // The form of resolved assets, and by far the most frequent.
        if (text.Length == 2 && text[0] is >= '0' and <= '6' && char.IsAsciiDigit(text[1]))
        {
            code = new(text[0] - '0', text[1] - '0');
            return true;
        }

        text = text.Trim();
        if (text.StartsWith("IP", StringComparison.OrdinalIgnoreCase))
            text = text[2..].TrimStart();
        if (!TakeNumeral(ref text, 6, out var solids) || !TakeNumeral(ref text, 9, out var water) || text.Length > 0)
            return false;
        code = new(solids, water);
        return true;
    }

    /// <summary>The name without building a string.</summary>
    internal static string NameOf(int solids, int water) => s_names[(solids * 10) + water];

    private static bool TakeNumeral(ref ReadOnlySpan<char> text, int highest, out int numeral)
    {
        numeral = 0;
        if (text.IsEmpty)
            return false;
        if (text[0] is not ('X' or 'x'))
        {
            numeral = text[0] - '0';
            if (numeral < 0 || numeral > highest)
                return false;
        }

        text = text[1..];
        if (!text.IsEmpty && text[0] is ('K' or 'k'))
            text = text[1..];
        return true;
    }
}
