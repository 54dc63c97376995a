using System.Globalization;

namespace TagService.Domain.Registers;

/// <summary>What a register's cell or JSON member holds.</summary>
public enum RegisterValueKind
{
    /// <summary>Nothing: JSON null, an empty cell, blanks.</summary>
    Empty,

    /// <summary>Text as it stands; numbers and dates in text are read by the mapping.</summary>
    Text,

    /// <summary>A typed number; its text has a point as decimal mark, so that it is never ambiguous.</summary>
    Number,

    /// <summary>A typed yes or no; its text is <c>true</c> or <c>false</c>.</summary>
    YesNo,

    /// <summary>A typed date or moment; its text is ISO 8601.</summary>
    Date,

    /// <summary>Several plain values (a JSON array).</summary>
    List,

    /// <summary>A structure that is no plain value (a JSON object, or an array holding one).</summary>
    Structure,

    /// <summary>No value but a mark: a failed calculation (<c>#REF!</c>), a formula without result, part of a merged cell; never taken for an empty cell.</summary>
    Error,
}

/// <summary>One value of a register's row.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Text">The value as text.</param>
/// <param name="Items">The items of a <see cref="RegisterValueKind.List"/>.</param>
public readonly record struct RegisterValue(RegisterValueKind Kind, string Text, IReadOnlyList<string>? Items = null)
{
    /// <summary>Nothing there.</summary>
    public static RegisterValue Empty { get; } = new(RegisterValueKind.Empty, "");

    /// <summary>A text; blanks only count as empty.</summary>
    public static RegisterValue OfText(string? text) =>
        string.IsNullOrWhiteSpace(text) ? Empty : new(RegisterValueKind.Text, text);

    /// <summary>A typed number, as the source wrote it with a point.</summary>
    public static RegisterValue OfNumber(string invariantText) => new(RegisterValueKind.Number, invariantText);

    /// <summary>A typed yes or no.</summary>
    public static RegisterValue OfYesNo(bool value) => new(RegisterValueKind.YesNo, value ? "true" : "false");

    /// <summary>A typed moment without offset; midnight is written as a date only.</summary>
    public static RegisterValue OfDate(DateTime value) => new(
        RegisterValueKind.Date,
        value.ToString(value.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : "yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture));

    /// <summary>Several plain values; an empty list counts as empty.</summary>
    public static RegisterValue OfList(IReadOnlyList<string> items) =>
        items.Count == 0 ? Empty : new(RegisterValueKind.List, string.Join(", ", items), items);
}
