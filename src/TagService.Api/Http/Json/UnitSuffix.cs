namespace TagService.Api.Http.Json;

/// <summary>The unit that a member's name ends with.</summary>
internal static class UnitSuffix
{
    // Longest first within a shared ending.
    private static readonly (string Suffix, string Unit)[] Units =
    [
        ("PerHour", "per hour"), ("PerYear", "per year"), ("PerM", "per m"), ("MnPerM", "mN/m"), ("AnnualRate", "a year"),
        ("Dbm", "dBm"), ("Dbi", "dBi"), ("Db", "dB"), ("Mhz", "MHz"), ("Khz", "kHz"), ("Hz", "Hz"), ("Watts", "W"),
        ("Mm2", "mm²"), ("Mm", "mm"), ("Years", "years"), ("Days", "days"), ("Hours", "hours"), ("Minutes", "minutes"),
        ("Seconds", "s"), ("Cycles", "cycles"), ("Bits", "bits"), ("Bytes", "bytes"), ("Km", "km"), ("J", "J"), ("C", "°C"), ("M", "m"),
    ];

    /// <summary>The unit, or null for a number without one.</summary>
    public static string? Of(string memberName)
    {
        foreach (var (suffix, unit) in Units)
        {
            if (memberName.EndsWith(suffix, StringComparison.Ordinal)
                || string.Equals(memberName, suffix, StringComparison.OrdinalIgnoreCase))
            {
                return unit;
            }
        }

        return null;
    }
}
