namespace TagService.Domain.Identity.Text;

/// <summary>
/// Identities from any text that carries them: hexadecimal EPC, <c>urn:epc:id:</c>, <c>urn:epc:tag:</c>, <c>urn:epc:raw:</c>, GS1
/// Digital Link of any host, element string with brackets, and the canonical text of <see cref="IdentityKey"/>.
/// </summary>
public static class IdentityText
{
    /// <summary>Longest text that is looked at; Digital Links with long hosts and queries stay below.</summary>
    public const int MaxLength = 2048;

    /// <summary>Reads a text; white space around it does not count.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The identity, or why it is none and what would be accepted.</returns>
    public static IdentityReading Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        text = text.Trim();
        if (text.Length is 0 or > MaxLength)
            return IdentityReading.Refuse("identity", text, $"The text is empty or longer than {MaxLength} characters.", Accepted);
        if (text[0] == '(')
            return ElementStringText.Parse(text);
        if (StartsWith(text, "http://") || StartsWith(text, "https://"))
            return DigitalLinkText.Parse(text);
        if (StartsWith(text, "urn:"))
            return EpcUriText.Parse(text);
        return text.Contains(':', StringComparison.Ordinal) && char.IsAsciiDigit(text[0])
            ? DigitalLinkText.ParseSegments(text.Split(':'), text)
            : HexText.Parse(text);
    }

    internal const string Accepted =
        "an EPC in hexadecimal, urn:epc:id:..., urn:epc:tag:..., urn:epc:raw:..., a GS1 Digital Link, an element string with brackets such as (8004)95211415678, or 8004:95211415678";

    private static bool StartsWith(string text, string start) => text.StartsWith(start, StringComparison.OrdinalIgnoreCase);
}
