namespace TagService.Domain.Places;

/// <summary>Names of places as registers, readers and people write them.</summary>
public static class PlaceName
{
    /// <summary>
    /// The form in which names are compared: small letters, one blank between words, none at the ends. Accents and punctuation
    /// count, as they may be all that tells two rooms apart. Text in, text out, no unit; tested in PlaceNameTests.
    /// </summary>
    /// <param name="name">Any text. A letter with its accent as a character of its own stays another one than the letter with accent in one.</param>
    public static string Fold(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var folded = new char[name.Length];
        var length = 0;
        foreach (var c in name)
        {
            if (!char.IsWhiteSpace(c))
                folded[length++] = char.ToLowerInvariant(c);
            else if (length > 0 && folded[length - 1] != ' ')
                folded[length++] = ' ';
        }

        return new string(folded, 0, length > 0 && folded[length - 1] == ' ' ? length - 1 : length);
    }
}
