namespace TagService.Intake.Registers.Http;

/// <summary>The header <c>Link</c> (RFC 8288, section 3).</summary>
internal static class LinkHeader
{
    /// <summary>Target of the first link with the relation <c>next</c>, as written; null if there is none.</summary>
    public static string? Next(IEnumerable<string> fields)
    {
        foreach (var field in fields)
        {
            var rest = field.AsSpan();
            while (true)
            {
                var open = rest.IndexOf('<');
                if (open < 0)
                    break;
                rest = rest[(open + 1)..];
                var close = rest.IndexOf('>');
                if (close < 0)
                    break;
                var target = rest[..close].Trim().ToString();
                rest = rest[(close + 1)..];
                if (IsNext(ref rest))
                    return target;
            }
        }

        return null;
    }

    // Parameters up to the next comma outside quotes; only the first rel counts (section 3.3).
    private static bool IsNext(ref ReadOnlySpan<char> rest)
    {
        string? rel = null;
        while (true)
        {
            rest = rest.TrimStart();
            if (rest.IsEmpty || rest[0] != ';')
            {
                var comma = rest.IndexOf(',');
                rest = comma < 0 ? [] : rest[(comma + 1)..];
                return rel is not null && rel.Split(' ', StringSplitOptions.RemoveEmptyEntries).Contains("next", StringComparer.OrdinalIgnoreCase);
            }

            rest = rest[1..].TrimStart();
            var end = rest.IndexOfAny("=;,");
            var name = (end < 0 ? rest : rest[..end]).Trim().ToString();
            rest = end < 0 ? [] : rest[end..];
            var value = !rest.IsEmpty && rest[0] == '=' ? Value(ref rest) : "";
            if (name.Equals("rel", StringComparison.OrdinalIgnoreCase))
                rel ??= value;
        }
    }

    private static string Value(ref ReadOnlySpan<char> rest)
    {
        rest = rest[1..].TrimStart();
        if (rest.IsEmpty || rest[0] != '"')
        {
            var end = rest.IndexOfAny(";,");
            var token = (end < 0 ? rest : rest[..end]).Trim().ToString();
            rest = end < 0 ? [] : rest[end..];
            return token;
        }

        var text = new System.Text.StringBuilder();
        var i = 1;
        for (; i < rest.Length && rest[i] != '"'; i++)
        {
            if (rest[i] == '\\' && i + 1 < rest.Length)
                i++;
            text.Append(rest[i]);
        }

        rest = i + 1 < rest.Length ? rest[(i + 1)..] : [];
        return text.ToString();
    }
}
