using System.Collections.Immutable;

namespace TagService.Domain.Suitability;

/// <summary>Impact energies of the IK code (IEC 62262).</summary>
/// <remarks>
/// Source: IEC 62262, levels 0 to 10 (secondary, read); 50 J as level 11 since the amendment of 2021 (from memory).
/// Exact; tested in IkCodeTests.
/// </remarks>
public static class IkCode
{
    private static readonly ImmutableArray<double> s_joules = [0, 0.14, 0.2, 0.35, 0.5, 0.7, 1, 2, 5, 10, 20, 50];

    /// <summary>Energy in J of a code such as <c>IK08</c>.</summary>
    /// <param name="text">The code, <c>IK00</c> to <c>IK11</c>; case and a blank do not matter.</param>
    /// <param name="energyJ">Impact energy in J.</param>
    public static bool TryParse(ReadOnlySpan<char> text, out double energyJ)
    {
        energyJ = 0;
        text = text.Trim();
        if (!text.StartsWith("IK", StringComparison.OrdinalIgnoreCase))
            return false;
        text = text[2..].TrimStart();
        if (text.Length is 0 or > 2 || !char.IsAsciiDigit(text[0]) || !char.IsAsciiDigit(text[^1]))
            return false;
        var level = text.Length == 1 ? text[0] - '0' : ((text[0] - '0') * 10) + text[1] - '0';
        if (level >= s_joules.Length)
            return false;
        energyJ = s_joules[level];
        return true;
    }
}
