namespace TagService.Domain.Words;

/// <summary>Edit distances between words.</summary>
internal static class EditDistance
{
    private const int Longest = 64;

    /// <summary>At most one letter wrong, missing, too many, or two neighbours swapped (Damerau 1964).</summary>
    public static bool IsAtMostOne(ReadOnlySpan<char> a, ReadOnlySpan<char> b)
    {
        if (a.Length > b.Length)
        {
            var swap = a;
            a = b;
            b = swap;
        }

        var same = a.CommonPrefixLength(b);
        var restA = a[same..];
        var restB = b[same..];
        if (a.Length == b.Length)
        {
            return restA.Length <= 1
                || restA[1..].SequenceEqual(restB[1..])
                || StartsSwapped(restA, restB);
        }

        return b.Length - a.Length == 1 && restA.SequenceEqual(restB[1..]);
    }

    /// <summary>Two neighbouring letters swapped and nothing else (Damerau 1964).</summary>
    public static bool IsOneSwap(ReadOnlySpan<char> a, ReadOnlySpan<char> b)
    {
        var same = a.CommonPrefixLength(b);
        return a.Length == b.Length && a.Length - same >= 2 && a[same] != b[same] && StartsSwapped(a[same..], b[same..]);
    }

    private static bool StartsSwapped(ReadOnlySpan<char> a, ReadOnlySpan<char> b) =>
        a[0] == b[1] && a[1] == b[0] && a[2..].SequenceEqual(b[2..]);

    /// <summary>Levenshtein distance (1966) of the first 64 characters of each.</summary>
    public static int Between(ReadOnlySpan<char> a, ReadOnlySpan<char> b)
    {
        a = a[..Math.Min(a.Length, Longest)];
        b = b[..Math.Min(b.Length, Longest)];
        Span<int> row = stackalloc int[Longest + 1];
        for (var j = 0; j <= b.Length; j++)
            row[j] = j;
        for (var i = 0; i < a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i + 1;
            for (var j = 0; j < b.Length; j++)
            {
                var cost = diagonal + (a[i] == b[j] ? 0 : 1);
                diagonal = row[j + 1];
                row[j + 1] = Math.Min(cost, Math.Min(row[j], diagonal) + 1);
            }
        }

        return row[b.Length];
    }
}
