using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Assets;

/// <summary>
/// Entity tags of assets: two parts, since an answer shows two things. The first moves with the asset's row, the second with what the
/// worker stores for it; who changes the asset depends on the first only, or the worker would spoil every condition.
/// </summary>
internal static class AssetTags
{
    public static EntityTagHeaderValue Of(StoredAsset stored) => new(string.Create(
        CultureInfo.InvariantCulture, $"\"{stored.Asset.Version:x}-{stored.Recommendation?.ComputedAt.UtcTicks ?? 0:x}\""));

    /// <summary>The tag a condition is compared with: the one sent whose first part is the asset's, else the present one.</summary>
    public static EntityTagHeaderValue ForPrecondition(HttpRequest request, StoredAsset stored)
    {
        var headers = request.GetTypedHeaders();
        var first = string.Create(CultureInfo.InvariantCulture, $"\"{stored.Asset.Version:x}-");
        var sent = headers.IfMatch.Concat(headers.IfNoneMatch).FirstOrDefault(t => t.Tag.StartsWith(first, StringComparison.Ordinal));
        return sent is null ? Of(stored) : new(sent.Tag);
    }
}
