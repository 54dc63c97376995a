using System.Globalization;

namespace TagService.Domain.Registers;

/// <summary>Sentences about targets and values.</summary>
internal static class MappingTexts
{
    private const int LongestQuoted = 80;

    public static string Accepts(MappingTarget target) => target.Kind switch
    {
        TargetKind.Text => string.Create(CultureInfo.InvariantCulture, $"text of at most {target.Longest} characters"),
        TargetKind.Number => $"a number{InUnit(target)}{Range(target)}{OrDate(target)}",
        TargetKind.WholeNumber => $"a whole number{Range(target)}",
        TargetKind.YesNo => $"yes or no (also true/false, 1/0, ja/nein, oui/non, sí/no, ...){OrDate(target)}",
        TargetKind.Choice => "one of " + string.Join(", ", target.Choices),
        TargetKind.TextList => string.Create(CultureInfo.InvariantCulture, $"at most {target.Longest} texts"),
        TargetKind.Money => $"an amount{Range(target)}, with or without an ISO 4217 currency code",
        _ => "an ISO 4217 code of three letters, or € or £",
    };

    public static string Quote(string text) =>
        text.Length <= LongestQuoted ? text : string.Concat(text.AsSpan(0, LongestQuoted), "…");

    private static string InUnit(MappingTarget target) =>
        target.Unit is { } unit ? $" in {unit}, or with a unit of {RegisterUnits.Table[unit].Dimension.ToString().ToLowerInvariant()} behind it" : "";

    private static string Range(MappingTarget target) =>
        target.Least == double.MinValue ? "" : string.Create(CultureInfo.InvariantCulture, $", {target.Least} to {target.Greatest}{(target.Unit is null ? "" : " " + target.Unit)}");

    private static string OrDate(MappingTarget target) => target.TakesDate ? ", or a date when the unit of the mapping is \"date\"" : "";
}
