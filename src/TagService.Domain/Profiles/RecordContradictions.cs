using System.Globalization;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Profiles;

/// <summary>
/// Finds what cannot be true at once within a record. Only given fields are compared, and only what is impossible is
/// reported: odd combinations are answered, not refused.
/// </summary>
public static class RecordContradictions
{
    /// <summary>Steam sterilisers hold 121 °C or 134 °C (EN 285, from memory); below 121 °C it is not steam sterilisation.</summary>
    private const double SterilisationC = 121;

    /// <summary>The rules: each gives what it finds, or null.</summary>
    internal static IReadOnlyList<Func<AssetRecord, Contradiction?>> All { get; } =
    [
        TemperatureOrder,
        PeakBelowMaximum,
        PeakBelowMinimum,
        WallThickerThanRound,
        RoomWiderThanRound,
        GroupOfOtherZone,
        TemperatureClassOfDustZone,
        HotterThanTemperatureClass,
        LaunderedSolid,
        SterilisedCold,
        MoreSunThanLife,
        DrilledFluid,
        ShorterThanScheme,
    ];

    /// <summary>All contradictions of a record; empty for nearly every record.</summary>
    /// <param name="record">Any record.</param>
    public static IReadOnlyList<Contradiction> Find(AssetRecord record)
    {
        List<Contradiction>? found = null;
        foreach (var rule in All)
        {
            if (rule(record) is { } contradiction)
                (found ??= []).Add(contradiction);
        }

        return found ?? (IReadOnlyList<Contradiction>)[];
    }

    private static Contradiction? ShorterThanScheme(AssetRecord r) =>
        r.Identity is { Scheme: { } scheme, EpcBits: { } bits } && IdentityPart.BitsOf(scheme) is { } needed && bits < needed
            ? Of("shorter-than-scheme", "/identity/scheme", scheme, "/identity/epcBits", bits.ToString(CultureInfo.InvariantCulture),
                $"{scheme} needs {needed} bits; the identity is said to have {bits}.")
            : null;

    private static Contradiction? TemperatureOrder(AssetRecord r) =>
        r.Environment is { TemperatureMinC: { } min, TemperatureMaxC: { } max } && min > max
            ? Of("temperature-order", "/environment/temperatureMinC", C(min), "/environment/temperatureMaxC", C(max),
                $"The lowest temperature, {C(min)}, is above the highest, {C(max)}.")
            : null;

    private static Contradiction? PeakBelowMaximum(AssetRecord r) =>
        r.Environment is { PeakTemperatureC: { } peak, TemperatureMaxC: { } max } && peak < max
            ? Of("peak-below-maximum", "/environment/peakTemperatureC", C(peak), "/environment/temperatureMaxC", C(max),
                $"The short peak, {C(peak)}, is below the highest continuous temperature, {C(max)}.")
            : null;

    private static Contradiction? PeakBelowMinimum(AssetRecord r) =>
        r.Environment is { PeakTemperatureC: { } peak, TemperatureMinC: { } min } && peak < min
            ? Of("peak-below-minimum", "/environment/peakTemperatureC", C(peak), "/environment/temperatureMinC", C(min),
                $"The short peak, {C(peak)}, is below the lowest temperature, {C(min)}.")
            : null;

    private static Contradiction? WallThickerThanRound(AssetRecord r) =>
        r.Surface is { CurvatureRadiusMm: > 0 and { } radius, ThicknessMm: { } thickness } && thickness > 2 * radius
            ? Of("wall-thicker-than-round", "/surface/thicknessMm", Mm(thickness), "/surface/curvatureRadiusMm", Mm(radius),
                $"A wall of {Mm(thickness)} does not fit into a round of radius {Mm(radius)}, which is {Mm(2 * radius)} thick.")
            : null;

    private static Contradiction? RoomWiderThanRound(AssetRecord r)
    {
        if (r is not { Surface.CurvatureRadiusMm: > 0 and { } radius, Mounting: { LengthMm: { } length, WidthMm: { } width } })
            return null;
        // One side may run along the axis; the other goes round and ends where it began.
        var around = 2 * Math.PI * radius;
        return Math.Min(length, width) > around
            ? Of("room-wider-than-round", length < width ? "/mounting/lengthMm" : "/mounting/widthMm", Mm(Math.Min(length, width)),
                "/surface/curvatureRadiusMm", Mm(radius),
                $"A free place of {Mm(length)} by {Mm(width)} is more than once around a radius of {Mm(radius)}.")
            : null;
    }

    private static Contradiction? GroupOfOtherZone(AssetRecord r)
    {
        if (r.Environment?.HazardousArea is not { Group: { } group } area)
            return null;
        var dustGroup = group.StartsWith("III", StringComparison.OrdinalIgnoreCase);
        return dustGroup != IsDust(area)
            ? Of("group-of-other-zone", "/environment/hazardousArea/group", group, "/environment/hazardousArea/zone", area.Zone,
                $"Group {group} is a {(dustGroup ? "dust" : "gas")} group, but zone {area.Zone} is a {(dustGroup ? "gas" : "dust")} zone (IEC 60079-10).")
            : null;
    }

    private static Contradiction? TemperatureClassOfDustZone(AssetRecord r) =>
        r.Environment?.HazardousArea is { TemperatureClass: { } t } area && IsDust(area)
            ? Of("temperature-class-of-dust-zone", "/environment/hazardousArea/temperatureClass", t, "/environment/hazardousArea/zone", area.Zone,
                $"Temperature class {t} belongs to gas; dust zone {area.Zone} states a surface temperature in °C (IEC 60079-0).")
            : null;

    private static Contradiction? HotterThanTemperatureClass(AssetRecord r) =>
        r.Environment is { HazardousArea.TemperatureClass: { } t, TemperatureMaxC: { } max } && LimitOf(t) is { } limit && max > limit
            ? Of("hotter-than-temperature-class", "/environment/temperatureMaxC", C(max), "/environment/hazardousArea/temperatureClass", t,
                $"A surface of {C(max)} is hotter than temperature class {t} allows in the area, {C(limit)} (IEC 60079-0). Ask the competent person of the site.")
            : null;

    private static Contradiction? LaunderedSolid(AssetRecord r) =>
        r is { Environment.LaundryCycles: > 0 and { } cycles, Surface.Material: { } text }
            && Materials.Find(text) is { Kind: MaterialKind.Liquid or MaterialKind.Tissue or MaterialKind.Metal } material
            ? Of("laundered-solid", "/environment/laundryCycles", Number(cycles), "/surface/material", text,
                $"{material.Name} does not go through {Number(cycles)} industrial laundry cycles.")
            : null;

    private static Contradiction? SterilisedCold(AssetRecord r) =>
        r.Environment is { SterilisationCycles: > 0 and { } cycles, PeakTemperatureC: { } peak } && peak < SterilisationC
            ? Of("sterilised-cold", "/environment/peakTemperatureC", C(peak), "/environment/sterilisationCycles", Number(cycles),
                $"Steam sterilisation reaches at least {C(SterilisationC)}, but the peak is {C(peak)} with {Number(cycles)} cycles.")
            : null;

    private static Contradiction? MoreSunThanLife(AssetRecord r) =>
        r is { Environment.UvYears: { } sun, Service.LifeYears: { } life } && sun > life
            ? Of("more-sun-than-life", "/environment/uvYears", Number(sun), "/service/lifeYears", Number(life),
                $"{Number(sun)} years of sun do not fit into a life of {Number(life)} years.")
            : null;

    private static Contradiction? DrilledFluid(AssetRecord r) =>
        r is { Mounting.AllowDrilling: true, Surface.Material: { } text } && Materials.Find(text) is { Kind: MaterialKind.Liquid or MaterialKind.Air, Id: not "foam" } material
            ? Of("drilled-fluid", "/mounting/allowDrilling", "true", "/surface/material", text,
                $"{material.Name} cannot be drilled or threaded, but allowDrilling is true.")
            : null;

    private static bool IsDust(HazardousAreaRecord area) => area.Zone.StartsWith('2') && area.Zone.Length == 2;

    // Highest surface temperature by class, IEC 60079-0 (from memory).
    private static double? LimitOf(string temperatureClass) => temperatureClass.ToUpperInvariant() switch
    {
        "T1" => 450,
        "T2" => 300,
        "T3" => 200,
        "T4" => 135,
        "T5" => 100,
        "T6" => 85,
        _ => null,
    };

    private static Contradiction Of(string rule, string pointerA, string a, string pointerB, string b, string sentence) =>
        new(rule, pointerA, a, pointerB, b, sentence);

    private static string C(double value) => Number(value) + " °C";

    private static string Mm(double value) => Number(value) + " mm";

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
