using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.ReadPoints;

/// <summary>Readers and antennas with the places they cover.</summary>
public static class ReadPointsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapReadPoints(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/read-points").WithTags(ApiTags.Places);
        ListReadPoints.Map(group);
        GetReadPoint.Map(group);
        PutReadPoint.Map(group);
        DeleteReadPoint.Map(group);
    }
}
