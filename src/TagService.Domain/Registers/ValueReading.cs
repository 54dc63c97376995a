using System.Globalization;
using TagService.Domain.Words;

namespace TagService.Domain.Registers;

/// <summary>Reads a register's value for a target.</summary>
internal static class ValueReading
{
    private const double DaysAYear = 365.25;

    private const string UsualSeparators = ",;/|\n";

    /// <summary>The value that is not empty, as the target wants it.</summary>
    public static ReadValue Read(in RegisterValue value, CompiledRow row, DateOnly asOf)
    {
        switch (value.Kind)
        {
            case RegisterValueKind.Structure:
                return ReadValue.Not("It is a structure, not a plain value.");
            case RegisterValueKind.Error:
                return ReadValue.Not("The source has no value there, only the mark of a failed calculation, a missing result or a merged cell.");
            case RegisterValueKind.List when row.Target.Kind is not (TargetKind.TextList or TargetKind.Text):
                return ReadValue.Not("It is a list, not one value.");
        }

        if (row.Table.Count > 0 && row.Table.TryGetValue(ValueKey(value.Text), out var ours))
            return Read(RegisterValue.OfText(ours), row with { Table = Nothing, Unit = null, IsDate = false, Row = Plain(row.Row) }, asOf);
        if (row.IsDate)
            return Date(value, row, asOf);
        return row.Target.Kind switch
        {
            TargetKind.Text => Text(value.Text.Trim(), row.Target),
            TargetKind.Number => Number(value, row),
            TargetKind.WholeNumber => WholeNumber(value, row),
            TargetKind.YesNo => YesNoWords.Read(value.Text) is { } yes ? new(yes) : ReadValue.Not("It is neither yes nor no."),
            TargetKind.Choice => Choice(value.Text, row.Target),
            TargetKind.TextList => List(value, row),
            TargetKind.Money => MoneyReading.Read(value, row),
            _ => MoneyReading.CurrencyOf(value.Text) is { } code ? new(code) : ReadValue.Not("It is no currency code with one meaning."),
        };
    }

    /// <summary>Form in which the words of value tables are compared; words of marks only stand for themselves.</summary>
    public static string ValueKey(string text) => TextFold.Fold(text) is { Length: > 0 } folded ? folded : text.Trim();

    private static System.Collections.Frozen.FrozenDictionary<string, string> Nothing =>
        System.Collections.Frozen.FrozenDictionary<string, string>.Empty;

    // What a value table gives is in our own words.
    private static MappingRow Plain(MappingRow row) => row with { DecimalMark = DecimalMark.Point };

    private static ReadValue Text(string text, MappingTarget target)
    {
        if (text.Length > target.Longest)
            return ReadValue.Not(string.Create(CultureInfo.InvariantCulture, $"It has {text.Length} characters."));
        if (IsNoText(text))
            return ReadValue.Not("It holds characters that are no text.");
        return new(text, Unknown: target.Recognises is { } known && !known(text) ? [text] : null);
    }

    private static bool IsNoText(string text) =>
        text.AsSpan().ContainsAnyInRange('\0', '\u0008') || text.Contains('\uFFFD', StringComparison.Ordinal);

    private static ReadValue Number(in RegisterValue value, CompiledRow row)
    {
        var read = QuantityText.Parse(value, row.Target.Unit is { } own ? RegisterUnits.Table[own] : null, row.Unit, row.Row.DecimalMark);
        return read.Error is { } error ? ReadValue.Not(error) : InRange((double)read.Value, row.Target);
    }

    private static ReadValue WholeNumber(in RegisterValue value, CompiledRow row)
    {
        var read = QuantityText.Parse(value, null, null, row.Row.DecimalMark);
        if (read.Error is { } error)
            return ReadValue.Not(error);
        if (read.Value != decimal.Truncate(read.Value))
            return ReadValue.Not("It is no whole number.");
        var inRange = InRange((double)read.Value, row.Target);
        return inRange.Error is null ? new((int)read.Value) : inRange;
    }

    internal static ReadValue InRange(double value, MappingTarget target) =>
        value >= target.Least && value <= target.Greatest
            ? new(value)
            : ReadValue.Not(string.Create(CultureInfo.InvariantCulture, $"It comes to {value} {target.Unit}, out of range.").Replace(" ,", ",", StringComparison.Ordinal));

    private static ReadValue Choice(string text, MappingTarget target)
    {
        var folded = TextFold.Fold(text);
        foreach (var choice in target.Choices)
        {
            // "Zone 1" and "1", "Outdoor sheltered" and "outdoor-sheltered"; no abbreviations.
            var word = TextFold.Fold(choice);
            if (folded == word || (folded == "zone " + word && target == HazardousAreaTargets.Zone))
                return new(choice);
        }

        return ReadValue.Not("It is none of the words of this field.");
    }

    private static ReadValue List(in RegisterValue value, CompiledRow row)
    {
        var separators = (row.Row.ListSeparators ?? UsualSeparators).ToCharArray();
        var items = (value.Items ?? value.Text.Split(separators, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            .Where(i => !string.IsNullOrWhiteSpace(i)).Distinct(StringComparer.OrdinalIgnoreCase).ToArray();
        if (items.Length > row.Target.Longest)
            return ReadValue.Not(string.Create(CultureInfo.InvariantCulture, $"It has {items.Length} items."));
        if (items.FirstOrDefault(i => i.Length > 200) is { } item)
            return ReadValue.Not(string.Create(CultureInfo.InvariantCulture, $"An item has {item.Length} characters."));
        if (Array.Exists(items, IsNoText))
            return ReadValue.Not("It holds characters that are no text.");
        var unknown = row.Target.Recognises is { } known ? items.Where(i => !known(i)).ToArray() : [];
        return new(items, Unknown: unknown.Length > 0 ? unknown : null);
    }

    private static ReadValue Date(in RegisterValue value, CompiledRow row, DateOnly asOf)
    {
        if (DateText.Parse(value.Text, value.Kind == RegisterValueKind.Date ? DateOrder.Unambiguous : row.Row.DateOrder) is not { } date)
            return ReadValue.Not("It is no date that can be meant in one way only.");
        return row.Target.Kind switch
        {
            TargetKind.YesNo => new(date <= asOf),
            TargetKind.Number => InRange((date.DayNumber - asOf.DayNumber) / DaysAYear, row.Target),
            _ => new(date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
        };
    }
}
