using System.Globalization;
using System.Text.Json;
using TagService.Domain.Radio;
using TagService.Domain.Reliability;

namespace TagService.Api.Features.Recommendations;

/// <summary>Values of an answer that are made for the wire: rounded numbers, names, sentences.</summary>
internal static class AnswerValues
{
    public static double Round(double value) => Math.Round(value, 3);

    // Parts are rounded to a tenth of a cent so that they add up to the total as printed.
    public static decimal Cents(double value) => Math.Round((decimal)value, 3);

    public static string Kebab<TEnum>(TEnum value)
        where TEnum : struct, Enum => KebabNames<TEnum>.Of(value);

    public static string BandRule(RadioBand band) => $"{band.Rule} ({band.Status})";

    public static string RangeBasis(CalibrationPosterior calibration) => calibration.Observations == 0
        ? "planning prior; no range of this class on this material has been measured yet"
        : string.Create(
            CultureInfo.InvariantCulture,
            $"{calibration.Observations} {(calibration.Observations == 1 ? "finding" : "findings")} from the field (measured ranges and bounds) of this class on this material: {calibration.MeanShiftDb:+0.0;-0.0;0.0} dB against the prior, sigma {calibration.SigmaDb:0.0} dB");

    public static string LifeBasis(LifeEstimate life) => string.Create(
        CultureInfo.InvariantCulture,
        $"planning prior worth {life.EquivalentFailures:0.#} failures, severity {life.Severity:0.0#} of these surroundings; no lifetimes of your own fleet yet");

    private static class KebabNames<TEnum>
        where TEnum : struct, Enum
    {
        private static readonly Dictionary<TEnum, string> Names = Enum.GetValues<TEnum>()
            .ToDictionary(v => v, v => JsonNamingPolicy.KebabCaseLower.ConvertName(v.ToString()));

        public static string Of(TEnum value) => Names[value];
    }
}
