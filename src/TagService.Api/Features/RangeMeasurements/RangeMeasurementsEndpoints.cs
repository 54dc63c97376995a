using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>Ranges found in the field, and what they teach.</summary>
public static class RangeMeasurementsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapRangeMeasurements(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1/range-measurements").WithTags(ApiTags.RangeMeasurements);
        RecordRangeMeasurements.Map(group);
        ListRangeMeasurements.Map(group);
        ListRangeCalibrations.Map(app.MapGroup("").WithTags(ApiTags.RangeMeasurements));
    }
}
