using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Fitting;

/// <summary>What fitters are told: one asset, or a round of many.</summary>
public static class FittingEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapFitting(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1").WithTags(ApiTags.Fitting);
        GetFittingInstruction.Map(group);
        GetFittingWorklist.Map(group);
    }
}
