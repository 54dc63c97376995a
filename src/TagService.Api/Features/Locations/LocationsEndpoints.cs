using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.Locations;

/// <summary>The tree of places.</summary>
public static class LocationsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapLocations(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/locations").WithTags(ApiTags.Places);
        ListLocations.Map(group);
        GetLocation.Map(group);
        PutLocation.Map(group);
        DeleteLocation.Map(group);
    }
}
