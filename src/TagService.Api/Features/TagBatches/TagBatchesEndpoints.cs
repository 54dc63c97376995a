using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.TagBatches;

/// <summary>Tags bought together.</summary>
public static class TagBatchesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapTagBatches(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/tag-batches").WithTags(ApiTags.TagBatches);
        ListTagBatches.Map(group);
        GetTagBatch.Map(group);
        PutTagBatch.Map(group);
        DeleteTagBatch.Map(group);
    }
}
