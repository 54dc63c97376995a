using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;
using TagService.Storage.Measurements;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.RangeMeasurements;

/// <summary>POST /v1/range-measurements.</summary>
internal static class RecordRangeMeasurements
{
    private static readonly RangeMeasurementsRequest Example = new()
    {
        Measurements =
        [
            new()
            {
                TagClassId = "hard-metal-mount-large", Material = "steel", ThicknessMm = 3, Kind = RangeFinding.Measured, RangeM = 4.2,
                Reading = new() { Region = "DE", ReaderKind = ReaderKind.Handheld, EirpDbm = 30, Site = "plant" },
                MeasuredAt = new(2026, 5, 4, 10, 0, 0, TimeSpan.Zero), Note = "pump 7 (invented)",
            },
            new()
            {
                TagClassId = "hard-metal-mount-large", Material = "steel", Kind = RangeFinding.AnswersAtLeast, RangeM = 3,
                Reading = new() { Region = "DE", ReaderKind = ReaderKind.Handheld, EirpDbm = 30, Site = "plant" },
            },
        ],
    };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("", Handle)
        .WithName("recordRangeMeasurements")
        .WithSummary("Record ranges found in the field")
        .WithDescription(
            "Up to 1,000 findings, all or none. A range at a stated power is a measurement; a tag that answers or stays silent at a distance gives a bound; "
            + "a tag measured because it failed a check is a selected case; one that answers at one distance and not at another lies between. Checks recorded with "
            + "attachments count by themselves and are not sent here too. Together they update what is known of the class on that material, and "
            + "recommendations use it at once: rangeBasis says on how many findings a range rests. Findings are never changed. With an "
            + "Idempotency-Key the same request sent again is stored once.")
        .Accepts<RangeMeasurementsRequest>("application/json")
        .WithExamples(
            static () => Example,
            static () => new RangeMeasurementsResponse(2, false, [new("hard-metal-mount-large", "steel", 2, 0.412, 2.143, 1, 1, 0, 0, 0)]))
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.IdempotencyKeyReused, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="writer">Where findings are kept.</param>
    /// <param name="contexts">The catalogue.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="idempotencyKey">Names this request.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RangeMeasurementsResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] RangeMeasurementWriter writer,
        [FromServices] RecommendationContextSource contexts,
        [FromServices] TimeProvider clock,
        [FromHeader(Name = "Idempotency-Key"), Description("Names this request; sent again with the same body, nothing is stored twice. Up to 200 visible ASCII characters.")]
        string? idempotencyKey,
        CancellationToken cancellationToken)
    {
        if (TransactedRequest.KeyRefusal(idempotencyKey) is { } refused)
            return refused;
        var body = await JsonBody.ReadAsync<RangeMeasurementsRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var (findings, problem) = new FindingReader(contexts.Snapshot, clock.GetUtcNow()).Read(body.Value.Measurements);
        if (problem is not null)
            return problem;
        var outcome = await writer.StoreAsync(findings, idempotencyKey, cancellationToken);
        if (outcome == MeasurementOutcome.KeyReused)
            return new ApiProblem(ProblemTypes.IdempotencyKeyReused, "This Idempotency-Key was used before with another body.");
        await contexts.TryRefreshAsync(cancellationToken);
        var touched = findings.Select(f => (f.Finding.TagClassId, f.Finding.MaterialId)).ToHashSet();
        return TypedResults.Ok(new RangeMeasurementsResponse(
            findings.Count, outcome == MeasurementOutcome.StoredBefore,
            [.. contexts.Snapshot.Calibrations.Where(c => touched.Contains((c.TagClassId, c.MaterialId))).Select(c => c.ToResponse())]));
    }
}
