using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Calculations;

/// <summary>The stateless calculators: the same kernels as the recommendations, every figure given by the caller.</summary>
public static class CalculationsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapCalculations(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/calculations").WithTags(ApiTags.Calculations);
        CalculateReadRange.Map(group);
    }
}
