using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>Runs over register sources.</summary>
public static class RegisterSyncsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapRegisterSyncs(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/register-syncs").WithTags(ApiTags.Registers);
        RequestRegisterSync.Map(group);
        ListRegisterSyncs.Map(group);
        GetRegisterSync.Map(group);
        CancelRegisterSync.Map(group);
        ListRejectedRows.Map(group);
    }
}
