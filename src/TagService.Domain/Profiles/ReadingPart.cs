using TagService.Domain.Radio;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>Fills how the tag is read.</summary>
internal readonly record struct ReadingPart(double RequiredRangeM, double RequiredProbability, ReadingSituation Situation)
{
    private static ReadingRecord Defaults => ProductDefault.All.Reading!;

    public static ReadingPart Resolve(
        ReadingRecord? given, ReadingRecord? typical, SettingRow row, SettingMerge merge, Gaps gaps) => new(
        gaps.Pick(ResolvedField.RequiredRangeM, given?.RequiredRangeM, typical?.RequiredRangeM, null),
        gaps.Pick(ResolvedField.RequiredProbability, given?.RequiredProbability, typical?.RequiredProbability, Defaults.RequiredProbability),
        SituationOf(given, typical, row, merge, gaps));

    private static ReadingSituation SituationOf(
        ReadingRecord? given, ReadingRecord? typical, SettingRow row, SettingMerge merge, Gaps gaps)
    {
        var kind = gaps.Pick(ResolvedField.ReaderKind, given?.ReaderKind, typical?.ReaderKind, Defaults.ReaderKind);
        Silent(ResolvedField.EirpDbm, given?.EirpDbm, gaps);
        Silent(ResolvedField.ReaderGainDbi, given?.ReaderGainDbi, gaps);
        Silent(ResolvedField.ReaderSensitivityDbm, given?.ReaderSensitivityDbm, gaps);
        return new()
        {
            Region = RegionOf(given?.Region, gaps),
            Reader = RadioLookups.Reader(kind),
            Site = SiteOf(given?.Site, merge.Differs ? null : typical?.Site, row.Site, gaps),
            EirpDbm = given?.EirpDbm,
            ReaderGainDbi = given?.ReaderGainDbi,
            ReaderSensitivityDbm = given?.ReaderSensitivityDbm,
            Polarization = gaps.Pick(ResolvedField.Polarization, given?.Polarization, typical?.Polarization, Defaults.Polarization),
            TagOrientation = gaps.Pick(ResolvedField.TagOrientation, given?.TagOrientation, typical?.TagOrientation, Defaults.TagOrientation),
            Looks = gaps.Pick(ResolvedField.Looks, given?.Looks, typical?.Looks, Defaults.Looks),
        };
    }

    // Absent power, gain and sensitivity mean the reader kind's own figures.
    private static void Silent(ResolvedField field, double? given, Gaps gaps)
    {
        if (given is null)
            gaps.Assume(field, AssumptionBasis.Derived);
    }

    private static RadioRegion RegionOf(string? given, Gaps gaps)
    {
        if (!string.IsNullOrWhiteSpace(given))
        {
            if (RadioLookups.Region(given) is { } found)
                return found;
            gaps.Miss(ResolvedField.Region, given);
        }

        gaps.Assume(ResolvedField.Region, AssumptionBasis.Default);
        return RadioTables.Regions[Defaults.Region!];
    }

    private static SiteModel SiteOf(string? given, string? typical, string usual, Gaps gaps)
    {
        if (!string.IsNullOrWhiteSpace(given))
        {
            if (RadioTables.Sites.Find(given) is { } found)
                return found;
            gaps.Miss(ResolvedField.Site, given);
        }

        gaps.Assume(ResolvedField.Site, typical is null ? AssumptionBasis.Setting : AssumptionBasis.Profile);
        return RadioTables.Sites[typical ?? usual];
    }
}
