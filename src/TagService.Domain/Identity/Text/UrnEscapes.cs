using System.Buffers;
using System.Globalization;
using System.Text;

namespace TagService.Domain.Identity.Text;

/// <summary>Triplets of EPC URNs: the characters of tables A-1 and G-1 that a URN cannot have as they are (TDS 2.3, annexes A and G; read).</summary>
internal static class UrnEscapes
{
    private static readonly SearchValues<char> Escaped = SearchValues.Create("\"#%&/<>?");

    /// <summary>With triplets.</summary>
    public static string Escape(string text)
    {
        if (!text.AsSpan().ContainsAny(Escaped))
            return text;
        var result = new StringBuilder(text.Length + 8);
        foreach (var c in text)
        {
            if (Escaped.Contains(c))
                result.Append(CultureInfo.InvariantCulture, $"%{(int)c:X2}");
            else
                result.Append(c);
        }

        return result.ToString();
    }

    /// <summary>Without triplets; false when a <c>%</c> begins none, or a character stands that should be one.</summary>
    public static bool TryUnescape(string text, out string plain)
    {
        plain = text;
        if (!text.AsSpan().ContainsAny(Escaped))
            return true;
        var result = new StringBuilder(text.Length);
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] != '%')
            {
                if (Escaped.Contains(text[i]))
                    return false;
                result.Append(text[i]);
                continue;
            }

            if (i + 2 >= text.Length || !byte.TryParse(text.AsSpan(i + 1, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var code))
                return false;
            result.Append((char)code);
            i += 2;
        }

        plain = result.ToString();
        return true;
    }
}
