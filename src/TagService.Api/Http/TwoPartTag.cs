using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;

namespace TagService.Api.Http;

/// <summary>
/// Entity tags of items that are shown together with what follows from other rows. The first part moves with the item's own row, the
/// second with the rest; who changes the item depends on the first only, or every attachment would spoil a condition on its batch.
/// </summary>
internal static class TwoPartTag
{
    /// <summary>The tag.</summary>
    /// <param name="version">Version of the item's row.</param>
    /// <param name="rest">Changes with the rest.</param>
    public static EntityTagHeaderValue Of(uint version, uint rest) => new(string.Create(CultureInfo.InvariantCulture, $"\"{version:x}-{rest:x}\""));

    /// <summary>The tag a condition of a change is compared with: the one sent whose first part is the item's, else the present one.</summary>
    /// <param name="request">The request.</param>
    /// <param name="version">Version of the item's row.</param>
    public static EntityTagHeaderValue ForPrecondition(HttpRequest request, uint version)
    {
        var headers = request.GetTypedHeaders();
        var first = string.Create(CultureInfo.InvariantCulture, $"\"{version:x}-");
        var sent = headers.IfMatch.Concat(headers.IfNoneMatch).FirstOrDefault(t => t.Tag.StartsWith(first, StringComparison.Ordinal));
        return sent is null ? Of(version, 0) : new(sent.Tag);
    }
}
