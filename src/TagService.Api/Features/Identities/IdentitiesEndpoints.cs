using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Identities;

/// <summary>What a tag's memory says, and what to write into it: stateless.</summary>
public static class IdentitiesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapIdentities(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/identities").WithTags(ApiTags.Identities);
        DecodeIdentity.Map(group);
        EncodeIdentity.Map(group);
    }
}
