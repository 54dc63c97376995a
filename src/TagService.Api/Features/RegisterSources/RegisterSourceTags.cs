using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Storage.Queries;

namespace TagService.Api.Features.RegisterSources;

/// <summary>
/// Entity tags of sources: two parts, since an answer shows two things. The first moves with the settings, the second with what comes of
/// them; who changes the settings depends on the first only, or every run would spoil the condition.
/// </summary>
internal static class RegisterSourceTags
{
    private const int StateDigits = 12;

    public static EntityTagHeaderValue Of(StoredRegisterSource stored)
    {
        var state = string.Create(
            CultureInfo.InvariantCulture,
            $"{stored.Listed} {stored.LastRun?.Id} {stored.LastRun?.Version()}");
        return new(string.Create(CultureInfo.InvariantCulture, $"\"{stored.Source.Version:x}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(state)))[..StateDigits]}\""));
    }

    /// <summary>The tag a condition is compared with: the one sent whose first part is the source's, else the present one.</summary>
    public static EntityTagHeaderValue ForPrecondition(HttpRequest request, StoredRegisterSource stored)
    {
        var headers = request.GetTypedHeaders();
        var first = string.Create(CultureInfo.InvariantCulture, $"\"{stored.Source.Version:x}-");
        var sent = headers.IfMatch.Concat(headers.IfNoneMatch).FirstOrDefault(t => t.Tag.StartsWith(first, StringComparison.Ordinal));
        return sent is null ? Of(stored) : new(sent.Tag);
    }

    // What is shown of a run.
    private static string Version(this Storage.Tables.RegisterSyncRow run) => string.Create(
        CultureInfo.InvariantCulture, $"{run.State} {run.Rows} {run.Refused} {run.EndedAt?.UtcTicks} {run.ReasonCode} {run.ReasonDetail}");
}
