using System.Text.RegularExpressions;

namespace TagService.Domain.Identity.Text;

/// <summary>
/// Element strings with bracketed AIs in any order; AIs that are no part of an identity are skipped. A value that itself holds a number
/// of two to four digits in brackets cannot be written this way (the standard's print form is not unique there); URN and Digital Link can.
/// </summary>
internal static partial class ElementStringText
{
    public static IdentityReading Parse(string text)
    {
        var elements = Ai().Matches(text);
        for (var i = 0; i < elements.Count; i++)
        {
            if (KeyFormats.FindAi(elements[i].Groups[1].ValueSpan) is not { } format)
                continue;
            var serial = format.SerialAi is { } ai && elements.FirstOrDefault(e => e.Groups[1].ValueSpan.SequenceEqual(ai)) is { } found ? Value(text, found) : "";
            return KeyFormats.Read(format, Value(text, elements[i]), serial);
        }

        return IdentityReading.Refuse(
            "identity", text, "The element string holds no AI of an identity.",
            "(00), (01) with (21), (253), (255), (414) with or without (254), (8003), (8004), (8006) with (21), (8010) with (8011), (8017) or (8018)");
    }

    private static string Value(string text, Match ai)
    {
        var next = ai.NextMatch();
        return text[(ai.Index + ai.Length)..(next.Success ? next.Index : text.Length)];
    }

    [GeneratedRegex(@"\(([0-9]{2,4})\)")]
    private static partial Regex Ai();
}
