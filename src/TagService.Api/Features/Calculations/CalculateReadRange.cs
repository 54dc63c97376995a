using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Radio;

namespace TagService.Api.Features.Calculations;

/// <summary>POST /v1/calculations/read-range.</summary>
internal static class CalculateReadRange
{
    // A circular reader at the limit of many regions and a linear tag of good sensitivity in the open.
    private static readonly ReadRangeInputs Example = new()
    {
        FrequencyMhz = 866,
        EirpDbm = 35.15,
        ReaderGainDbi = 8,
        ReaderSensitivityDbm = -80,
        TagGainDbi = 1.5,
        PowerThresholdDbm = -20,
        PolarizationLossDb = 3.01,
        PathExponent = 2.5,
        BreakpointM = 3,
        SigmaDb = 4,
        AtM = 6,
    };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/read-range", Handle)
        .WithName("calculateReadRange")
        .WithSummary("Read range of a link")
        .WithDescription(
            "Forward range (the chip powers up) and, with the reader's gain and sensitivity, return range (the reply is decoded); the smaller "
            + "one counts. With atM and sigmaDb also the probability of one read at that distance. Losses are per leg: they count once forward, "
            + "twice for the reply. Far field only. Power limits and people's exposure limits are the local regulator's.")
        .Accepts<ReadRangeInputs>("application/json")
        .WithExamples(static () => Example, static () => ReadRangeCalculation.Calculate(Example))
        .WithJsonBodyProblems();

    private static async Task<Results<Ok<ReadRangeResult>, ApiProblem>> Handle(HttpContext context, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<ReadRangeInputs>(context, null, cancellationToken);
        return body.IsRead ? TypedResults.Ok(ReadRangeCalculation.Calculate(body.Value)) : body.Problem;
    }
}
