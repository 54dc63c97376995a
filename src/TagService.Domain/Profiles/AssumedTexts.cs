using System.Text.Json;
using TagService.Domain.Recommendations;
using TagService.Domain.Words;

namespace TagService.Domain.Profiles;

/// <summary>The value of one field of a resolved asset as text with its unit.</summary>
internal static class AssumedTexts
{
    public static string Of(ResolvedField field, ResolvedAsset a) => field switch
    {
        <= ResolvedField.AllowDrilling => Surface(field, a),
        <= ResolvedField.FoodContact => Environment(field, a),
        <= ResolvedField.Looks => Reading(field, a),
        _ => Service(field, a),
    };

    private static string Surface(ResolvedField field, ResolvedAsset a) => field switch
    {
        ResolvedField.Material => a.Material.Name,
        ResolvedField.Coating => a.Coating.Name,
        ResolvedField.CurvatureRadiusMm => a.CurvatureRadiusMm > 0 ? Number(a.CurvatureRadiusMm, "mm") : "flat",
        ResolvedField.ThicknessMm => Number(a.ThicknessMm, "mm"),
        ResolvedField.Backing => a.Backing.Name,
        ResolvedField.LengthMm => Number(a.LengthMm, "mm"),
        ResolvedField.WidthMm => Number(a.WidthMm, "mm"),
        ResolvedField.MaxHeightMm => Number(a.MaxHeightMm, "mm"),
        _ => YesNo(a.AllowDrilling),
    };

    private static string Environment(ResolvedField field, ResolvedAsset a) => field switch
    {
        ResolvedField.Setting => Word(a.Setting),
        ResolvedField.TemperatureMinC => Number(a.TemperatureMinC, "°C"),
        ResolvedField.TemperatureMaxC => Number(a.TemperatureMaxC, "°C"),
        ResolvedField.PeakTemperatureC => Number(a.PeakTemperatureC, "°C"),
        ResolvedField.ApplicationTemperatureC => Number(a.ApplicationTemperatureC, "°C"),
        ResolvedField.IpRequired => a.IpRequired.Count == 0 ? "none" : "IP" + string.Join(", IP", a.IpRequired),
        ResolvedField.ImmersionM => Number(a.ImmersionM, "m"),
        ResolvedField.PressureWash => YesNo(a.PressureWash),
        ResolvedField.ImpactJ => Number(a.ImpactJ, "J"),
        ResolvedField.Abrasion => Word(a.Abrasion),
        ResolvedField.Flexing => Word(a.Flexing),
        ResolvedField.Chemicals => a.Chemicals.Count == 0 ? "none" : string.Join(", ", a.Chemicals),
        ResolvedField.UvYears => Number(a.UvYears, "years"),
        ResolvedField.SterilisationCycles => Number(a.SterilisationCycles, "cycles"),
        ResolvedField.LaundryCycles => Number(a.LaundryCycles, "cycles"),
        ResolvedField.HazardousArea => a.HazardousArea is { } h ? $"zone {h.Zone} {h.Group} {h.TemperatureClass}".TrimEnd() : "none",
        ResolvedField.TamperRisk => Word(a.TamperRisk),
        _ => YesNo(a.FoodContact),
    };

    private static string Reading(ResolvedField field, ResolvedAsset a) => field switch
    {
        ResolvedField.Contents => CompiledProfile.Of(a.Profile).Contents?.Name ?? "nothing that matters to the tag",
        ResolvedField.RequiredRangeM => Number(a.RequiredRangeM, "m"),
        ResolvedField.RequiredProbability => Number(a.RequiredProbability, ""),
        ResolvedField.Region => a.Reading.Region.Name,
        ResolvedField.ReaderKind => a.Reading.Reader.Name,
        ResolvedField.EirpDbm => a.Reading.Reader.EirpDbm is { } p ? Number(p, "dBm EIRP, within the region's limit") : "no UHF side",
        ResolvedField.ReaderGainDbi => Number(a.Reading.Reader.GainDbi, "dBi"),
        ResolvedField.ReaderSensitivityDbm => Number(a.Reading.Reader.SensitivityDbm, "dBm"),
        ResolvedField.Polarization => Word(a.Reading.Polarization),
        ResolvedField.Site => a.Reading.Site.Name,
        ResolvedField.TagOrientation => Word(a.Reading.TagOrientation),
        _ => Number(a.Reading.Looks, "looks"),
    };

    private static string Service(ResolvedField field, ResolvedAsset a) => field switch
    {
        ResolvedField.LifeYears => Number(a.LifeYears, "years"),
        ResolvedField.SweepsPerYear => Number(a.SweepsPerYear, "a year"),
        ResolvedField.Currency => a.PriceFactor == 1
            ? a.Currency
            : InvariantText.Of($"built-in prices times {a.PriceFactor:0.####} in {a.Currency}"),
        ResolvedField.LabourRatePerHour => Number(a.LabourRatePerHour, a.Currency + "/h"),
        ResolvedField.VisitMinutes => Number(a.VisitMinutes, "min"),
        ResolvedField.DiscountRate => Number(a.DiscountRate * 100, "% a year"),
        ResolvedField.EpcBits => Number(a.EpcBits, "bits"),
        _ => YesNo(a.NeedsPrint),
    };

    private static string Number(double value, string unit) =>
        unit.Length == 0 ? InvariantText.Of($"{value:0.###}") : InvariantText.Of($"{value:0.###} {unit}");

    private static string YesNo(bool value) => value ? "yes" : "no";

    private static string Word<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());
}
