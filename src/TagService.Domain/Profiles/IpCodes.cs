using TagService.Domain.Suitability;

namespace TagService.Domain.Profiles;

/// <summary>Protection codes in the two-digit form of a resolved asset.</summary>
internal static class IpCodes
{
    private const int WaterLevels = 10;

    private static readonly string[] Codes =
        [.. Enumerable.Range(0, 7 * WaterLevels).Select(i => $"{i / WaterLevels}{i % WaterLevels}")];

    /// <summary>For example "66" from "IP66", "ip 66" or "66"; null when it is no IP code (IEC 60529).</summary>
    public static string? Normalise(string? code) =>
        IpCode.TryParse(code, out var ip) ? Codes[(ip.Solids * WaterLevels) + ip.Water] : null;
}
