using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>The surroundings with every gap filled.</summary>
internal readonly record struct Surroundings
{
    public required SettingRow Setting { get; init; }

    public required SettingMerge Merge { get; init; }

    public required (double MinC, double MaxC, double PeakC) Temperatures { get; init; }

    public required double ApplicationTemperatureC { get; init; }

    public required IReadOnlyList<string> IpRequired { get; init; }

    public required double ImmersionM { get; init; }

    public required bool PressureWash { get; init; }

    public required double ImpactJ { get; init; }

    public required Level Abrasion { get; init; }

    public required Level Flexing { get; init; }

    public required IReadOnlyList<string> Chemicals { get; init; }

    public required double UvYears { get; init; }

    public required int SterilisationCycles { get; init; }

    public required int LaundryCycles { get; init; }

    public required HazardousAreaRecord? HazardousArea { get; init; }

    public required Level TamperRisk { get; init; }

    public required bool FoodContact { get; init; }

    public static Surroundings Resolve(
        EnvironmentRecord? given, CompiledProfile profile, EnvironmentRecord? typical, double lifeYears, Gaps gaps)
    {
        var setting = given?.Setting ?? typical?.Setting;
        var row = Settings.Of(gaps.Pick(
            ResolvedField.Setting, given?.Setting, typical?.Setting, ProductDefault.All.Environment!.Setting));
        var merge = new SettingMerge(setting != typical?.Setting);
        var part = new EnvironmentPart(given, typical, row, merge, gaps);
        return new()
        {
            Setting = row,
            Merge = merge,
            Temperatures = part.Temperatures(),
            ApplicationTemperatureC = part.ApplicationTemperatureC(),
            IpRequired = part.IpRequired(profile),
            ImmersionM = part.ImmersionM(),
            PressureWash = part.PressureWash(),
            ImpactJ = part.ImpactJ(),
            Abrasion = part.Abrasion(),
            Flexing = part.Flexing(),
            Chemicals = part.Chemicals(),
            UvYears = part.UvYears(lifeYears),
            SterilisationCycles = part.SterilisationCycles(),
            LaundryCycles = part.LaundryCycles(),
            HazardousArea = part.HazardousArea(),
            TamperRisk = part.TamperRisk(),
            FoodContact = part.FoodContact(),
        };
    }
}
