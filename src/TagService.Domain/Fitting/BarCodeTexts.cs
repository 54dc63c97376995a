using TagService.Domain.Identity;
using TagService.Domain.Identity.Text;

namespace TagService.Domain.Fitting;

/// <summary>What the bar codes beside a tag carry, so that a person without a radio reader finds the same identity.</summary>
public static class BarCodeTexts
{
    /// <summary>The function character that separates elements, as decoders hand it over.</summary>
    public const char Separator = '\u001d';

    /// <summary>
    /// Content of a QR code: the canonical GS1 Digital Link, which any telephone opens; for identities outside the GS1 keys the
    /// canonical text.
    /// </summary>
    /// <param name="key">The identity.</param>
    public static string Qr(IdentityKey key) => IdentityForms.DigitalLink(key) ?? key.ToString();

    /// <summary>
    /// Content of a GS1 DataMatrix without its leading FNC1: application identifiers and values one after the other, with
    /// <see cref="Separator"/> behind an element of no predefined length that another one follows. Source: GS1 General Specifications,
    /// concatenation of element strings and the table of predefined lengths (from memory).
    /// </summary>
    /// <param name="key">The identity.</param>
    /// <returns>The element string; null for identities outside the GS1 keys.</returns>
    public static string? Gs1DataMatrix(IdentityKey key)
    {
        if (KeyFormats.Find(key.Kind) is not { } format)
            return null;
        if (format.SerialAi is null)
            return format.Ai + key.Value();
        var first = format.Ai + key.Primary;
        if (key.Serial is not { } serial)
            return first;
        // 00 to 04, 11 to 20, 31 to 36 and 41 have a predefined length.
        var separator = format.Ai.StartsWith("80", StringComparison.Ordinal) ? $"{Separator}" : "";
        return $"{first}{separator}{format.SerialAi}{serial}";
    }
}
