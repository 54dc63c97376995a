using TagService.Domain.Recommendations;
using Chemical = TagService.Domain.Suitability.Chemicals;

namespace TagService.Domain.Profiles;

/// <summary>Fills the surroundings, field by field.</summary>
internal readonly struct EnvironmentPart(
    EnvironmentRecord? given, EnvironmentRecord? typical, SettingRow row, SettingMerge merge, Gaps gaps)
{
    private EnvironmentRecord Usual => row.Environment;

    /// <summary>Lowest, highest and peak temperature in °C; what is assumed gives way to what is given, in order.</summary>
    public (double Min, double Max, double Peak) Temperatures()
    {
        var min = gaps.Harsher(ResolvedField.TemperatureMinC, given?.TemperatureMinC, typical?.TemperatureMinC, Usual.TemperatureMinC!.Value, merge, true);
        var max = gaps.Harsher(ResolvedField.TemperatureMaxC, given?.TemperatureMaxC, typical?.TemperatureMaxC, Usual.TemperatureMaxC!.Value, merge, false);
        var peak = gaps.Harsher(ResolvedField.PeakTemperatureC, given?.PeakTemperatureC, typical?.PeakTemperatureC, Usual.PeakTemperatureC!.Value, merge, false);
        if (given?.TemperatureMaxC is null)
        {
            // A given lowest temperature lifts the assumed highest, a given peak caps it.
            if (given?.PeakTemperatureC is { } cap && max > cap)
                max = Derived(ResolvedField.TemperatureMaxC, cap);
            if (given?.TemperatureMinC is { } floor && max < floor)
                max = Derived(ResolvedField.TemperatureMaxC, floor);
        }

        if (given?.TemperatureMinC is null && min > max)
            min = Derived(ResolvedField.TemperatureMinC, max);
        if (given?.PeakTemperatureC is null && peak < max)
            peak = Derived(ResolvedField.PeakTemperatureC, max);
        return (min, max, peak);
    }

    public double ApplicationTemperatureC() =>
        gaps.Harsher(ResolvedField.ApplicationTemperatureC, given?.ApplicationTemperatureC, typical?.ApplicationTemperatureC, Usual.ApplicationTemperatureC!.Value, merge, true);

    public double ImmersionM() =>
        gaps.Harsher(ResolvedField.ImmersionM, given?.ImmersionM, typical?.ImmersionM, Usual.ImmersionM!.Value, merge, false);

    public bool PressureWash() =>
        gaps.Harsher(ResolvedField.PressureWash, given?.PressureWash, typical?.PressureWash, Usual.PressureWash!.Value, merge);

    public double ImpactJ() =>
        gaps.Harsher(ResolvedField.ImpactJ, given?.ImpactJ, typical?.ImpactJ, Usual.ImpactJ!.Value, merge, false);

    public Level Abrasion() =>
        gaps.Harsher(ResolvedField.Abrasion, given?.Abrasion, typical?.Abrasion, Usual.Abrasion!.Value, merge);

    public Level Flexing() =>
        gaps.Harsher(ResolvedField.Flexing, given?.Flexing, typical?.Flexing, Usual.Flexing!.Value, merge);

    public Level TamperRisk() =>
        gaps.Harsher(ResolvedField.TamperRisk, given?.TamperRisk, typical?.TamperRisk, Usual.TamperRisk!.Value, merge);

    public bool FoodContact() =>
        gaps.Harsher(ResolvedField.FoodContact, given?.FoodContact, typical?.FoodContact, Usual.FoodContact!.Value, merge);

    public int SterilisationCycles() =>
        gaps.Harsher(ResolvedField.SterilisationCycles, given?.SterilisationCycles, typical?.SterilisationCycles, Usual.SterilisationCycles!.Value, merge);

    public int LaundryCycles() =>
        gaps.Harsher(ResolvedField.LaundryCycles, given?.LaundryCycles, typical?.LaundryCycles, Usual.LaundryCycles!.Value, merge);

    /// <summary>uvYears = share of the life in full sun x lifeYears, years; the profile's own figure where it is harsher.</summary>
    public double UvYears(double lifeYears)
    {
        if (given?.UvYears is { } stated)
            return stated;
        var bySetting = row.SunShare * lifeYears;
        // A profile's years of sun belong to its own life; no asset sees more sun than it has years.
        if (typical?.UvYears is { } usual && (!merge.Differs || usual > bySetting))
        {
            gaps.Assume(ResolvedField.UvYears, AssumptionBasis.Profile);
            return Math.Min(usual, lifeYears);
        }

        gaps.Assume(ResolvedField.UvYears, AssumptionBasis.Derived);
        return bySetting;
    }

    public HazardousAreaRecord? HazardousArea()
    {
        if (given?.HazardousArea is { } stated)
            return stated;
        gaps.Assume(ResolvedField.HazardousArea, typical?.HazardousArea is null ? AssumptionBasis.Default : AssumptionBasis.Profile);
        return typical?.HazardousArea;
    }

    public IReadOnlyList<string> IpRequired(CompiledProfile profile)
    {
        if (given?.IpRequired is { } stated)
            return Understood(stated, ResolvedField.IpRequired, IpCodes.Normalise);
        var codes = Both(ResolvedField.IpRequired, profile.IpRequired, EnvironmentLists.IpRequired(row.Setting));
        // What the record says of washing and immersion asks for the codes that stand for it (IEC 60529).
        if (given?.PressureWash == true)
            codes = With(codes, "69");
        if (given?.ImmersionM > 0)
            codes = With(codes, "68");
        return codes;
    }

    public IReadOnlyList<string> Chemicals() => given?.Chemicals is { } stated
        ? Understood(stated, ResolvedField.Chemicals, static text => Chemical.Find(text)?.Id)
        : Both(ResolvedField.Chemicals, typical?.Chemicals, Usual.Chemicals!);

    private IReadOnlyList<string> Both(ResolvedField field, IReadOnlyList<string>? profile, IReadOnlyList<string> setting)
    {
        var onlySetting = profile is null || (merge.Differs && profile.Count == 0);
        gaps.Assume(field, onlySetting ? AssumptionBasis.Setting : AssumptionBasis.Profile);
        if (onlySetting)
            return setting;
        return merge.Differs && setting.Count > 0 ? EnvironmentLists.Union(profile!, setting) : profile!;
    }

    private IReadOnlyList<string> With(IReadOnlyList<string> codes, string code)
    {
        gaps.Assume(ResolvedField.IpRequired, AssumptionBasis.Derived);
        foreach (var c in codes)
        {
            if (c[1] == code[1])
                return codes;
        }

        return [.. codes, code];
    }

    private List<string> Understood(IReadOnlyList<string> stated, ResolvedField field, Func<string, string?> meaning)
    {
        var found = new List<string>(stated.Count);
        foreach (var text in stated)
        {
            if (meaning(text) is not { } id)
                gaps.Miss(field, text);
            else if (!found.Contains(id))
                found.Add(id);
        }

        return found;
    }

    private double Derived(ResolvedField field, double value)
    {
        gaps.Assume(field, AssumptionBasis.Derived);
        return value;
    }
}
