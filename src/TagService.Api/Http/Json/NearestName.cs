namespace TagService.Api.Http.Json;

/// <summary>The known name somebody most likely meant.</summary>
internal static class NearestName
{
    /// <summary>
    /// Nearest by optimal string alignment distance, case and separators ignored; null when nothing is near:
    /// more than a third of the letters would have to change.
    /// </summary>
    public static string? Of(string name, IEnumerable<string> known)
    {
        if (name.Length > 80)
            return null;
        var plain = Plain(name);
        var (best, bestDistance) = ((string?)null, int.MaxValue);
        foreach (var candidate in known)
        {
            var other = Plain(candidate);
            var distance = Distance(plain, other);
            // A name that merely lacks its unit (requiredRange for requiredRangeM) is near however long the unit is.
            if (plain.Length >= 4 && other.StartsWith(plain, StringComparison.Ordinal))
                distance = Math.Min(distance, 1);
            if (distance < bestDistance && distance <= Math.Max(1, Math.Max(plain.Length, other.Length) / 3))
                (best, bestDistance) = (candidate, distance);
        }

        return best;
    }

    private static string Plain(string name) =>
        string.Concat(name.Where(char.IsLetterOrDigit)).ToLowerInvariant();

    // Damerau (1964), Levenshtein (1966): insert, delete, replace, swap of neighbours, each costs 1.
    private static int Distance(string a, string b)
    {
        var (before, last, row) = (new int[b.Length + 1], new int[b.Length + 1], new int[b.Length + 1]);
        for (var j = 0; j <= b.Length; j++)
            last[j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = a[i - 1] == b[j - 1] ? 0 : 1;
                row[j] = Math.Min(Math.Min(last[j] + 1, row[j - 1] + 1), last[j - 1] + change);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
            }

            (before, last, row) = (last, row, before);
        }

        return last[b.Length];
    }
}
