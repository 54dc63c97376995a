using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Recommendations;

/// <summary>The main job: from an asset record to a tag class.</summary>
public static class RecommendationsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapRecommendations(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/recommendations").WithTags(ApiTags.Recommendations);
        RecommendTagClass.Map(group);
        RecommendTagClassBatch.Map(group);
    }
}
