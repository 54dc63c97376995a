using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>GET /v1/range-calibrations.</summary>
internal static class ListRangeCalibrations
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/v1/range-calibrations", Handle)
        .WithName("listRangeCalibrations")
        .WithSummary("What measured ranges have taught")
        .WithDescription(
            "For each tag class on each material with findings: how far the class's gain lies from the calculated one, how sure that is, and on how many "
            + "findings of which kinds it rests. These are the figures recommendations use.")
        .WithExamples(static () => new RangeCalibrationListResponse([new("hard-metal-mount-large", "steel", 2, 0.412, 2.143, 1, 1, 0, 0, 0)]))
        .WithProblems();

    private static Ok<RangeCalibrationListResponse> Handle(HttpContext context, [FromServices] RecommendationContextSource contexts)
    {
        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.Ok(new RangeCalibrationListResponse([.. contexts.Snapshot.Calibrations.Select(c => c.ToResponse())]));
    }
}
