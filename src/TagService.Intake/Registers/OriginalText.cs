using System.Text;

namespace TagService.Intake.Registers;

/// <summary>The text of a row as the source wrote it, bounded, fit for a text column (no NUL, no half characters).</summary>
internal static class OriginalText
{
    /// <summary>Most characters kept.</summary>
    public const int Longest = 4000;

    public static string Of(ReadOnlySpan<char> text)
    {
        var cut = text.Length > Longest;
        var kept = cut ? text[..Longest] : text;
        if (cut && char.IsHighSurrogate(kept[^1]))
            kept = kept[..^1];
        return Plain(kept.TrimEnd("\r\n").ToString() + (cut ? "…" : ""));
    }

    public static string Of(ReadOnlySpan<byte> utf8) =>
        // One character has at most three bytes per UTF-16 unit.
        Of(Encoding.UTF8.GetString(utf8[..Math.Min(utf8.Length, (Longest + 2) * 3)]).AsSpan());

    private static string Plain(string text) => text.Contains('\0', StringComparison.Ordinal) ? text.Replace('\0', '\uFFFD') : text;
}
