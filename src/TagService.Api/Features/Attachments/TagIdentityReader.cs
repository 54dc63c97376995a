using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
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
        var plain = text.Trim();
        error = plain.Length is >= 4 and <= 124 && plain.Length % 4 == 0 && plain.All(char.IsAsciiHexDigit)
            ? null
            : new(pointer, JsonText.Clip(text), "The text has none of the known forms.", "an EPC in hexadecimal");
        return error is null ? new(plain.ToUpperInvariant(), plain.ToUpperInvariant(), null, tidHex?.ToUpperInvariant()) : null;
    }
}
