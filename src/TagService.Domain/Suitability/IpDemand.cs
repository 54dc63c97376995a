namespace TagService.Domain.Suitability;

/// <summary>What a list of IP codes asks for, read once: the rules on dust and water run for every class.</summary>
/// <param name="Solids">The highest first numeral.</param>
/// <param name="WaterLevels">The second numerals, one bit each: every one must be held by itself.</param>
/// <param name="HasUnread">A code that does not read is among them.</param>
internal readonly record struct IpDemand(int Solids, int WaterLevels, bool HasUnread)
{
    public static IpDemand Of(IReadOnlyList<string> codes)
    {
        int solids = 0, levels = 0;
        var unread = false;
        for (var i = 0; i < codes.Count; i++)
        {
            if (IpCode.TryParse(codes[i], out var code))
                (solids, levels) = (Math.Max(solids, code.Solids), levels | (1 << code.Water));
            else
                unread = true;
        }

        return new(solids, levels, unread);
    }
}
