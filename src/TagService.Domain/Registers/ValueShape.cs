using TagService.Domain.Surfaces;

namespace TagService.Domain.Registers;

/// <summary>What the values of a column look like: shares of the values that are not empty, 0 to 1.</summary>
public sealed record ValueShape
{
    /// <summary>Values looked at.</summary>
    public required int Count { get; init; }

    /// <summary>Share of different values.</summary>
    public required double Distinct { get; init; }

    /// <summary>Look like an identity of a tag: EPC in hexadecimal, EPC URI, GS1 Digital Link of a GIAI or GRAI.</summary>
    public required double Identity { get; init; }

    /// <summary>Dates.</summary>
    public required double Date { get; init; }

    /// <summary>Lengths with their unit.</summary>
    public required double Length { get; init; }

    /// <summary>Words that the table of materials knows.</summary>
    public required double Material { get; init; }

    /// <summary>Names of places that are known already.</summary>
    public required double KnownLocation { get; init; }

    /// <summary>Is any number written with a comma that can only be a decimal mark?</summary>
    public required bool HasDecimalComma { get; init; }

    private const int LongestMaterial = 40;

    /// <summary>Looks at the values of one column.</summary>
    /// <param name="values">Values, empty ones left out.</param>
    /// <param name="knownLocations">Names of places that are known already.</param>
    public static ValueShape Of(IReadOnlyList<RegisterValue> values, IReadOnlySet<string> knownLocations) => new()
    {
        Count = values.Count,
        Distinct = values.Count == 0 ? 0 : (double)values.Select(v => v.Text).Distinct(StringComparer.Ordinal).Count() / values.Count,
        Identity = Share(values, v => LooksLikeIdentity(v.Text)),
        Date = Share(values, v => v.Kind == RegisterValueKind.Date || (v.Kind == RegisterValueKind.Text && (DateText.Parse(v.Text, DateOrder.DayMonthYear) ?? DateText.Parse(v.Text, DateOrder.MonthDayYear)) is not null)),
        Length = Share(values, v => v.Kind == RegisterValueKind.Text && IsLength(v)),
        Material = Share(values, v => v.Kind == RegisterValueKind.Text && v.Text.Length <= LongestMaterial && Materials.Find(v.Text) is not null),
        KnownLocation = Share(values, v => knownLocations.Contains(v.Text.Trim())),
        HasDecimalComma = values.Any(v => v.Kind == RegisterValueKind.Text && IsOnlyReadWithComma(v.Text)),
    };

    /// <summary>
    /// Whole words of 16 bits in hexadecimal, 64 to 496 bits (the EPC memory bank is written in such words, ISO/IEC 18000-63), an
    /// EPC URI (GS1 TDS, "urn:epc:id:"), or a GS1 Digital Link of a GIAI (8004) or GRAI (8003). Only the form is looked at.
    /// </summary>
    /// <param name="text">A cell.</param>
    public static bool LooksLikeIdentity(string text)
    {
        var t = text.Trim();
        if (t.StartsWith("urn:epc:", StringComparison.OrdinalIgnoreCase))
            return true;
        if (t.StartsWith("http", StringComparison.OrdinalIgnoreCase))
            return t.Contains("/8004/", StringComparison.Ordinal) || t.Contains("/8003/", StringComparison.Ordinal);
        t = t.Replace(" ", "", StringComparison.Ordinal).Replace("-", "", StringComparison.Ordinal);
        // Digits alone are more often a long running number.
        return t.Length is >= 16 and <= 124 && t.Length % 4 == 0 && t.All(char.IsAsciiHexDigit) && (t.Length >= 24 || t.Any(char.IsAsciiLetter));
    }

    private static bool IsLength(in RegisterValue value)
    {
        var hasUnit = value.Text.Length > 0 && !char.IsAsciiDigit(value.Text.Trim()[^1]);
        return hasUnit && QuantityText.Parse(value, RegisterUnits.Table["mm"], null, DecimalMark.Comma).Error is null;
    }

    private static bool IsOnlyReadWithComma(string text)
    {
        var number = text.AsSpan().Trim();
        while (number.Length > 0 && !char.IsAsciiDigit(number[^1]))
            number = number[..^1];
        return number.Contains(',')
            && NumberText.Parse(number, DecimalMark.Comma, out _) == NumberOutcome.Read
            && NumberText.Parse(number, DecimalMark.Point, out _) != NumberOutcome.Read;
    }

    private static double Share(IReadOnlyList<RegisterValue> values, Func<RegisterValue, bool> test) =>
        values.Count == 0 ? 0 : (double)values.Count(test) / values.Count;
}
