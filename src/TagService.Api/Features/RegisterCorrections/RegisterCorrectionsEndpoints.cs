using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.RegisterCorrections;

/// <summary>What registers should be told.</summary>
public static class RegisterCorrectionsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapRegisterCorrections(this IEndpointRouteBuilder app) =>
        ListRegisterCorrections.Map(app.MapGroup("/v1/register-corrections").WithTags(ApiTags.Registers));
}
