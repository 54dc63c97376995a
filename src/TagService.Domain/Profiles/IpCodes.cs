namespace TagService.Domain.Profiles;

/// <summary>Protection codes (IEC 60529) as people write them.</summary>
internal static class IpCodes
{
    private const int MostSolids = 6;
    private const int MostWater = 9;

    private static readonly string[] Codes =
        [.. Enumerable.Range(0, (MostSolids + 1) * (MostWater + 1)).Select(i => $"{i / (MostWater + 1)}{i % (MostWater + 1)}")];

    /// <summary>
    /// Two digits from forms such as "IP66", "ip 67", "68", "IPX8" (X, not tested, counts as 0), "IP69K" (as ISO 20653 and
    /// older habits write hot pressure washing).
    /// </summary>
    /// <param name="code">The code.</param>
    /// <returns>For example "66"; null when it is none.</returns>
    public static string? Normalise(string? code)
    {
        var rest = code.AsSpan().Trim();
        if (rest.StartsWith("IP", StringComparison.OrdinalIgnoreCase))
            rest = rest[2..].TrimStart(" -");
        if (rest.EndsWith("K", StringComparison.OrdinalIgnoreCase))
            rest = rest[..^1];
        if (rest.Length != 2)
            return null;
        var solids = Digit(rest[0], MostSolids);
        var water = Digit(rest[1], MostWater);
        return solids < 0 || water < 0 ? null : Codes[(solids * (MostWater + 1)) + water];
    }

    private static int Digit(char c, int most) =>
        c is 'x' or 'X' ? 0 : c is >= '0' and <= '9' && c - '0' <= most ? c - '0' : -1;
}
