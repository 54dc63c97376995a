namespace TagService.Intake.Registers.Files;

/// <summary>Finds out what separates the values of a text file.</summary>
public static class SeparatorDetection
{
    private const int MostRows = 100;

    /// <summary>What can separate, in the order of preference when nothing else decides.</summary>
    public static IReadOnlyList<char> Candidates { get; } = [',', ';', '\t', '|'];

    /// <summary>
    /// The separator with which most rows have as many values as the first, and more than one; among equals the one with more values.
    /// </summary>
    /// <param name="beginning">The file's beginning, some ten thousand characters; its last row may be cut.</param>
    /// <returns>The separator, and the share of rows that agree (0 when no candidate gives more than one value).</returns>
    public static (char Separator, double Confidence) Detect(string beginning)
    {
        var best = (Separator: ',', Share: 0.0, Values: 1);
        foreach (var candidate in Candidates)
        {
            var counts = Counts(beginning, candidate);
            if (counts.Count == 0 || counts[0] < 2)
                continue;
            var share = (double)counts.Count(c => c == counts[0]) / counts.Count;
            if (share > best.Share || (share == best.Share && counts[0] > best.Values))
                best = (candidate, share, counts[0]);
        }

        return (best.Separator, best.Share);
    }

    private static List<int> Counts(string text, char separator)
    {
        var counts = new List<int>();
        using var rows = new CsvRows(new StringReader(text), separator, int.MaxValue);
        while (counts.Count < MostRows && rows.Read())
            counts.Add(rows.Fields.Length);
        // The last row may be cut off.
        if (counts.Count > 1 && counts.Count < MostRows)
            counts.RemoveAt(counts.Count - 1);
        return counts;
    }
}
