namespace TagService.Domain.Registers;

/// <summary>Where the value of a mapping row stands.</summary>
/// <param name="At">Place in the row, or -1.</param>
/// <param name="Item">Number of the item within a list, or -1 for the whole value.</param>
internal readonly record struct ValuePlace(int At, int Item)
{
    /// <summary>The value in a row, or null when the row has none there.</summary>
    public RegisterValue? In(RegisterRow row)
    {
        if (At < 0 || At >= row.Values.Count)
            return null;
        var value = row.Values[At];
        if (Item < 0)
            return value;
        return value.Items is { } items && Item < items.Count ? RegisterValue.OfText(items[Item]) : null;
    }
}

/// <summary>Where in rows of one shape the values of a mapping stand.</summary>
/// <param name="Columns">The shape.</param>
/// <param name="OfRows">Place of each mapping row's source.</param>
/// <param name="Others">Places that feed no field and are to be kept.</param>
internal sealed record ColumnPlaces(RegisterColumns Columns, ValuePlace[] OfRows, int[] Others)
{
    public static ColumnPlaces Of(RegisterColumns columns, IReadOnlyList<CompiledRow> rows, IReadOnlyList<string> notKept)
    {
        ValuePlace[] ofRows = [.. rows.Select(r => r.Row.Source is { } s ? columns.PlaceOf(s) : new(-1, -1))];
        var left = notKept.Select(columns.IndexOf).Concat(ofRows.Where(p => p.Item < 0).Select(p => p.At)).Where(at => at >= 0).ToHashSet();
        // A structure taken or left as a whole is taken or left with all that is in it.
        string[] whole = columns.AreJsonPointers ? [.. left.Select(at => columns.Names[at] + "/"), .. notKept.Where(s => s.StartsWith('/')).Select(s => s + "/")] : [];
        int[] others = [.. Enumerable.Range(0, columns.Names.Count)
            .Where(at => !left.Contains(at) && !Array.Exists(whole, w => columns.Names[at].StartsWith(w, StringComparison.Ordinal)))];
        return new(columns, ofRows, others);
    }
}
