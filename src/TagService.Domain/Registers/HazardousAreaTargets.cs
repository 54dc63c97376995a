using System.ComponentModel.DataAnnotations;
using System.Reflection;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Registers;

/// <summary>The explosive atmosphere: a value that is not understood refuses the row, because the asset would count as standing outside it.</summary>
internal static class HazardousAreaTargets
{
    /// <summary>Zone; without it group and temperature class mean nothing.</summary>
    public static MappingTarget Zone { get; } = Make("zone", a => a.Zone, (a, v) => a with { Zone = v! });

    public static IReadOnlyList<MappingTarget> All { get; } =
    [
        Zone,
        Make("group", a => a.Group, (a, v) => a with { Group = v }),
        Make("temperatureClass", a => a.TemperatureClass, (a, v) => a with { TemperatureClass = v }),
    ];

    public static bool IsDetail(MappingTarget target) => target == All[1] || target == All[2];

    private static MappingTarget Make(
        string name, Func<HazardousAreaRecord, string?> get, Func<HazardousAreaRecord, string?, HazardousAreaRecord> set) => new()
        {
            Pointer = "/environment/hazardousArea/" + name,
            Kind = TargetKind.Choice,
            IsVital = true,
            Choices = Words(char.ToUpperInvariant(name[0]) + name[1..]),
            Get = r => r.Environment?.HazardousArea is { } area ? get(area) : null,
            Set = (r, v) => With(r, name, (string?)v, set),
        };

    private static AssetRecord With(
        AssetRecord record, string name, string? value, Func<HazardousAreaRecord, string?, HazardousAreaRecord> set)
    {
        var area = record.Environment?.HazardousArea;
        if (name == "zone" && value is null)
            area = null;
        else if (area is not null || name == "zone")
            area = set(area ?? new() { Zone = value! }, value);
        // A group without a zone has been refused before; taking one away where there is none changes nothing.
        var environment = (record.Environment ?? new()) with { HazardousArea = area };
        return record with { Environment = environment == new EnvironmentRecord() ? null : environment };
    }

    private static string[] Words(string property) =>
        [.. typeof(HazardousAreaRecord).GetProperty(property)!.GetCustomAttribute<AllowedValuesAttribute>()!.Values.OfType<string>()];
}
