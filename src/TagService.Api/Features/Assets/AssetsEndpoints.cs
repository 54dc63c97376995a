using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Assets;

/// <summary>The register's mirror.</summary>
public static class AssetsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapAssets(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/assets").WithTags(ApiTags.Assets);
        ListAssets.Map(group);
        GetAsset.Map(group);
        PutAsset.Map(group);
        PatchAsset.Map(group);
        PutAssetBatch.Map(group);
        ListAssetHistory.Map(group);
    }
}
