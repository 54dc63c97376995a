using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.RegisterSources;

/// <summary>Registers that assets are read from, and how their rows become assets.</summary>
public static class RegisterSourcesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapRegisterSources(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/register-sources").WithTags(ApiTags.Registers);
        ListRegisterSources.Map(group);
        GetRegisterSource.Map(group);
        PutRegisterSource.Map(group);
        DeleteRegisterSource.Map(group);
        PreviewRegisterSource.Map(group);
        PreviewUnsavedSource.Map(group);
        SuggestMapping.Map(group);
    }
}
