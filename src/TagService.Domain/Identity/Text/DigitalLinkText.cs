namespace TagService.Domain.Identity.Text;

/// <summary>GS1 Digital Links: the host does not count, path segments before the key and key qualifiers beside the serial are skipped.</summary>
internal static class DigitalLinkText
{
    public static IdentityReading Parse(string text)
    {
        var path = text.AsSpan(text.IndexOf("://", StringComparison.Ordinal) + 3);
        if (path.IndexOfAny('?', '#') is var end and >= 0)
            path = path[..end];
        var slash = path.IndexOf('/');
        return slash < 0
            ? Refuse(text)
            : ParseSegments(path[(slash + 1)..].TrimEnd('/').ToString().Split('/'), text);
    }

    /// <summary>AI and value in turns, values percent-encoded.</summary>
    public static IdentityReading ParseSegments(string[] segments, string text)
    {
        IdentityReading? refused = null;
        for (var i = 0; i + 1 < segments.Length; i++)
        {
            if (KeyFormats.FindAi(segments[i]) is not { } format)
                continue;
            var reading = ParseKey(format, segments.AsSpan(i + 1));
            if (reading is IdentityRead)
                return reading;
            // A path may hold 00 or 01 by chance before the key; the first refusal is the likelier one otherwise.
            refused ??= reading;
        }

        return refused ?? Refuse(text);
    }

    private static IdentityReading ParseKey(KeyFormat format, ReadOnlySpan<string> rest)
    {
        var value = Uri.UnescapeDataString(rest[0]);
        // GTINs of 8, 12 and 13 digits stand for the one filled up with zeros.
        if (format.Kind == IdentityKind.Sgtin && value.Length is 8 or 12 or 13)
            value = value.PadLeft(14, '0');
        var serial = "";
        for (var i = 1; i + 1 < rest.Length; i += 2)
        {
            if (rest[i] == format.SerialAi)
                serial = Uri.UnescapeDataString(rest[i + 1]);
        }

        return KeyFormats.Read(format, value, serial);
    }

    private static IdentityRefused Refuse(string text) => IdentityReading.Refuse(
        "identity", text, "The path holds no AI of an identity.",
        "00, 01 with 21, 253, 255, 414 with or without 254, 8003, 8004, 8006 with 21, 8010 with 8011, 8017 or 8018, each before its value");
}
