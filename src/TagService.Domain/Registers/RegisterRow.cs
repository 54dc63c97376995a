namespace TagService.Domain.Registers;

/// <summary>One row of a register as it was read, before any mapping: names and values, nothing interpreted.</summary>
/// <param name="Columns">Names; rows of one shape share them.</param>
/// <param name="Values">One value a name, in the same order.</param>
public sealed record RegisterRow(RegisterColumns Columns, IReadOnlyList<RegisterValue> Values)
{
    /// <summary>The value of a source, or null when the row has none of that name (which is not the same as an empty one).</summary>
    /// <param name="source">Column name or JSON pointer.</param>
    public RegisterValue? Find(string source) => Columns.PlaceOf(source).In(this);

    /// <summary>A row of a table; for tests and samples.</summary>
    public static RegisterRow OfTexts(params IReadOnlyList<(string Column, string? Text)> cells) => new(
        new RegisterColumns([.. cells.Select(c => c.Column)], areJsonPointers: false),
        [.. cells.Select(c => RegisterValue.OfText(c.Text))]);
}
