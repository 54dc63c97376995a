namespace TagService.Domain.Registers;

/// <summary>JSON pointers in their text form (RFC 6901): <c>""</c> is the whole document, <c>/a~1b/0</c> the first item of member <c>a/b</c>.</summary>
public static class JsonPointers
{
    /// <summary>One reference token escaped (section 3): <c>~</c> as <c>~0</c>, <c>/</c> as <c>~1</c>.</summary>
    public static string Escape(string token) =>
        token.AsSpan().ContainsAny('~', '/')
            ? token.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal)
            : token;

    /// <summary>One reference token unescaped (section 4): first <c>~1</c>, then <c>~0</c>.</summary>
    public static string Unescape(string token) =>
        token.Contains('~', StringComparison.Ordinal)
            ? token.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)
            : token;

    /// <summary>The pointer of a member at the top.</summary>
    public static string OfMember(string name) => "/" + Escape(name);

    /// <summary>The unescaped reference tokens of a pointer that <see cref="IsValid"/>.</summary>
    public static IReadOnlyList<string> Tokens(string pointer) =>
        pointer.Length == 0 ? [] : [.. pointer[1..].Split('/').Select(Unescape)];

    /// <summary>Is this the text of a JSON pointer: empty, or starting with a slash, and each tilde followed by 0 or 1?</summary>
    public static bool IsValid(string text)
    {
        if (text.Length == 0)
            return true;
        if (text[0] != '/')
            return false;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '~' && (i + 1 == text.Length || text[i + 1] is not ('0' or '1')))
                return false;
        }

        return true;
    }
}
