using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Changes;

/// <summary>The audit trail.</summary>
public static class ChangesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapChanges(this IEndpointRouteBuilder app) =>
        ListChanges.Map(app.MapGroup("/v1/changes").WithTags(ApiTags.Changes));
}
