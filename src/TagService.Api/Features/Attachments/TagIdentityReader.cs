using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.Identity.Text;
using TagService.Storage.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>The one place where attachments meet the text forms of identities.</summary>
internal static class TagIdentityReader
{
    /// <summary>The tag; null with an error when the text is no identity.</summary>
    /// <param name="text">Any form of an identity.</param>
    /// <param name="tidHex">TID sent with it.</param>
    /// <param name="pointer">Where the text stood.</param>
    /// <param name="error">What is wrong.</param>
    public static TagSeen? Read(string text, string? tidHex, string pointer, out ProblemError? error)
    {
        switch (IdentityText.Parse(text))
        {
            case IdentityRead read:
                error = null;
                var hex = EpcHex(text);
                return new(read.Key.ToString(), hex, hex is null ? null : read.Scheme?.Name, tidHex?.ToUpperInvariant());
            case IdentityRefused refused:
                error = new(pointer, JsonText.Clip(text), refused.Reason.Detail, refused.Reason.Accepted);
                return null;
            default:
                throw new InvalidOperationException("A text is an identity or refused.");
        }
    }

    // What was read as an identity and has hexadecimal digits only is an EPC field.
    private static string? EpcHex(string text)
    {
        var digits = text.Trim().Replace(" ", "", StringComparison.Ordinal);
        if (digits.StartsWith("0x", StringComparison.OrdinalIgnoreCase))
            digits = digits[2..];
        return digits.All(char.IsAsciiHexDigit) ? digits.ToUpperInvariant() : null;
    }
}
