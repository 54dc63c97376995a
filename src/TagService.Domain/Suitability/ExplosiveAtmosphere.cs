namespace TagService.Domain.Suitability;

/// <summary>Zones, equipment protection levels, groups and temperature classes of explosive atmospheres.</summary>
/// <remarks>
/// Source: IEC 60079-14 (levels by zone), IEC 60079-0 (groups, temperature classes), IEC 60079-10 (zones); from memory.
/// What is allowed where is for the site's competent person to decide.
/// </remarks>
public static class ExplosiveAtmosphere
{
    /// <summary>The least equipment protection level for a zone: 0 Ga, 1 Gb, 2 Gc, 20 Da, 21 Db, 22 Dc.</summary>
    /// <param name="zone">Zone; an unknown one counts as zone 0, the most demanding.</param>
    public static string LevelFor(string zone) => zone switch
    {
        "1" => "Gb",
        "2" => "Gc",
        "20" => "Da",
        "21" => "Db",
        "22" => "Dc",
        _ => "Ga",
    };

    /// <summary>Does a level hold where another is asked for? The same letter (G gas, D dust), and a, b, c from best to least.</summary>
    /// <param name="held">Level of the certificate.</param>
    /// <param name="needed">Level asked for.</param>
    public static bool LevelHolds(string held, string needed) =>
        held.Length == 2 && needed.Length == 2
        && held[0] == needed[0] && held[1] is >= 'a' and <= 'c' && held[1] <= needed[1];

    /// <summary>Is it a dust zone (20, 21, 22)?</summary>
    /// <param name="zone">Zone.</param>
    public static bool IsDust(string zone) => zone is "20" or "21" or "22";

    /// <summary>Does a group hold where another is asked for? IIC covers IIB and IIA, IIIC covers IIIB and IIIA.</summary>
    /// <param name="held">Group of the certificate.</param>
    /// <param name="needed">Group asked for.</param>
    public static bool GroupHolds(string held, string needed) =>
        held.Length == needed.Length && held.Length >= 3
        && held.AsSpan(0, held.Length - 1).SequenceEqual(needed.AsSpan(0, needed.Length - 1))
        && held[^1] is >= 'A' and <= 'C' && held[^1] >= needed[^1];

    /// <summary>
    /// Highest surface temperature in °C of a temperature class: T1 450, T2 300, T3 200, T4 135, T5 100, T6 85;
    /// null for anything else. Exact; tested in ExplosiveAtmosphereTests.
    /// </summary>
    /// <param name="temperatureClass">T1 to T6.</param>
    public static double? SurfaceLimitC(string temperatureClass) => temperatureClass switch
    {
        "T1" => 450,
        "T2" => 300,
        "T3" => 200,
        "T4" => 135,
        "T5" => 100,
        "T6" => 85,
        _ => null,
    };
}
