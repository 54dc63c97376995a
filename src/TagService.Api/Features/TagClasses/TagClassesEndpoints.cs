using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.TagClasses;

/// <summary>Built-in tag classes, and what users lay over them.</summary>
public static class TagClassesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapTagClasses(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/tag-classes").WithTags(ApiTags.TagClasses);
        ListTagClasses.Map(group);
        GetTagClass.Map(group);
        PutTagClass.Map(group);
        DeleteTagClass.Map(group);
    }
}
