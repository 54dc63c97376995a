using System.Globalization;

namespace TagService.Domain.Words;

/// <summary>
/// Brings text of registers to one form: lower case, accents folded, ä, ae and a alike (so that German typed without
/// umlauts is still found), one blank between words, and marks where a phrase ends.
/// </summary>
public static class TextFold
{
    /// <summary>Mark of a place where a new, less important part begins: comma, bracket, full colon.</summary>
    public const char Aside = ',';

    /// <summary>Mark between parts of equal weight: slash, bar, plus, arrow.</summary>
    public const char Beside = '/';

    private const int TableStart = 0xC0;

    private static readonly string?[] Latin = MakeLatin();

    /// <summary>
    /// Folds <paramref name="text"/> as far as <paramref name="output"/> holds. No accuracy or unit: text in, text out;
    /// tested in TextFoldTests.
    /// </summary>
    /// <param name="text">Any text.</param>
    /// <param name="output">Receives letters, digits, blanks and the two marks.</param>
    /// <returns>Number of characters written.</returns>
    public static int Fold(ReadOnlySpan<char> text, Span<char> output)
    {
        var n = 0;
        for (var i = 0; i < text.Length && n + 2 < output.Length; i++)
        {
            var c = text[i];
            if (c < TableStart)
                n = FoldAscii(text, i, output, n);
            else if (c - TableStart < Latin.Length)
                n = Append(Latin[c - TableStart], output, n);
            else if (char.IsLetterOrDigit(c))
                output[n++] = char.ToLowerInvariant(c);
            else if (CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark)
                n = Break(c is '–' or '—' ? Aside : c is '→' or '•' ? Beside : ' ', output, n);
        }

        return n;
    }

    /// <summary>The folded form as a string; for building tables.</summary>
    public static string Fold(string text)
    {
        var buffer = new char[(text.Length * 2) + 4];
        return new string(buffer, 0, Fold(text, buffer)).Trim();
    }

    private static int FoldAscii(ReadOnlySpan<char> text, int i, Span<char> output, int n)
    {
        var c = text[i];
        if (char.IsAsciiLetterUpper(c))
            c = (char)(c | 0x20);
        if (c == 'e' && n > 0 && output[n - 1] is 'a' or 'o' or 'u')
            return n;
        if (char.IsAsciiLetterOrDigit(c))
        {
            output[n] = c;
            return n + 1;
        }

        return Break(MarkOf(text, i, c), output, n);
    }

    private static char MarkOf(ReadOnlySpan<char> text, int i, char c) => c switch
    {
        // A decimal comma is no aside.
        ',' => i + 1 < text.Length && char.IsAsciiDigit(text[i + 1]) && i > 0 && char.IsAsciiDigit(text[i - 1]) ? ' ' : Aside,
        ';' or ':' or '(' or ')' or '[' or ']' or '{' or '}' or '"' or '\n' or '\r' => Aside,
        // A hyphen joins, a dash with blanks around it sets apart.
        '-' => i > 0 && i + 1 < text.Length && text[i - 1] == ' ' && text[i + 1] == ' ' ? Aside : ' ',
        '/' or '\\' or '|' or '>' or '+' or '&' or '·' or '»' => Beside,
        _ => ' ',
    };

    private static int Break(char mark, Span<char> output, int n)
    {
        if (n == 0)
            return 0;
        // A stronger mark replaces a blank; marks do not pile up.
        var last = output[n - 1];
        if (last == ' ' && mark != ' ')
            output[n - 1] = mark;
        else if (last is not (' ' or Aside or Beside))
            output[n++] = mark;
        return n;
    }

    private static int Append(string? letters, Span<char> output, int n)
    {
        if (letters is null)
            return Break(' ', output, n);
        foreach (var c in letters)
            output[n++] = c;
        return n;
    }

    private static string?[] MakeLatin()
    {
        // Latin-1 Supplement and Latin Extended-A, U+00C0 to U+017F.
        var table = new string?[0x180 - TableStart];
        Fill(table, "ÀÁÂÃÄÅàáâãäåĀāĂăĄąÆæ", "a");
        Fill(table, "ÇçĆćĈĉĊċČč", "c");
        Fill(table, "ÐðĎďĐđ", "d");
        Fill(table, "ÈÉÊËèéêëĒēĔĕĖėĘęĚě", "e");
        Fill(table, "ĜĝĞğĠġĢģ", "g");
        Fill(table, "ĤĥĦħ", "h");
        Fill(table, "ÌÍÎÏìíîïĨĩĪīĬĭĮįİı", "i");
        Fill(table, "Ĵĵ", "j");
        Fill(table, "Ķķĸ", "k");
        Fill(table, "ĹĺĻļĽľĿŀŁł", "l");
        Fill(table, "ÑñŃńŅņŇňŉŊŋ", "n");
        Fill(table, "ÒÓÔÕÖØòóôõöøŌōŎŏŐőŒœ", "o");
        Fill(table, "ŔŕŖŗŘř", "r");
        Fill(table, "ŚśŜŝŞşŠšſ", "s");
        Fill(table, "ŢţŤťŦŧ", "t");
        Fill(table, "ÙÚÛÜùúûüŨũŪūŬŭŮůŰűŲų", "u");
        Fill(table, "Ŵŵ", "w");
        Fill(table, "ÝýÿŶŷŸ", "y");
        Fill(table, "ŹźŻżŽž", "z");
        Fill(table, "ß", "ss");
        Fill(table, "Þþ", "th");
        Fill(table, "Ĳĳ", "ij");
        return table;
    }

    private static void Fill(string?[] table, string letters, string folded)
    {
        foreach (var c in letters)
            table[c - TableStart] = folded;
    }
}
