namespace TagService.Domain.Registers;

/// <summary>Where in rows of one shape the values of a mapping stand.</summary>
/// <param name="Columns">The shape.</param>
/// <param name="OfRows">Place of each mapping row's source, or -1.</param>
/// <param name="Others">Places that feed no field and are to be kept.</param>
internal sealed record ColumnPlaces(RegisterColumns Columns, int[] OfRows, int[] Others)
{
    public static ColumnPlaces Of(RegisterColumns columns, IReadOnlyList<CompiledRow> rows, IReadOnlyList<string> notKept)
    {
        int[] ofRows = [.. rows.Select(r => r.Row.Source is { } s ? columns.IndexOf(s) : -1)];
        var left = notKept.Select(columns.IndexOf).Concat(ofRows).Where(at => at >= 0).ToHashSet();
        // A structure taken or left as a whole is taken or left with all that is in it.
        string[] whole = columns.AreJsonPointers ? [.. left.Select(at => columns.Names[at] + "/"), .. notKept.Where(s => s.StartsWith('/')).Select(s => s + "/")] : [];
        int[] others = [.. Enumerable.Range(0, columns.Names.Count)
            .Where(at => !left.Contains(at) && !Array.Exists(whole, w => columns.Names[at].StartsWith(w, StringComparison.Ordinal)))];
        return new(columns, ofRows, others);
    }
}
