using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Json;
using TagService.Api.Http.Ndjson;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>POST /v1/recommendations.</summary>
internal static class RecommendTagClass
{
    /// <summary>Words that registers use for something of their own although they are known inside a part of the record.</summary>
    internal static readonly JsonReadOptions ReadOptions = new()
    {
        NotMisplaced = new HashSet<string>(StringComparer.Ordinal) { "material", "site", "region", "currency", "group", "zone", "setting" },
    };

    private static readonly RecommendationRequest Example = new()
    {
        AssetId = "P-2041",
        Category = "centrifugal pump",
        Surface = new() { Material = "cast iron", Coating = "paint" },
        Mounting = new() { LengthMm = 120, WidthMm = 40, MaxHeightMm = 15, AllowDrilling = false },
        Environment = new() { Setting = Setting.Plant, TemperatureMaxC = 60 },
        Reading = new() { RequiredRangeM = 2, Region = "DE", ReaderKind = ReaderKind.Handheld },
        Service = new() { LifeYears = 12, SweepsPerYear = 2, VisitMinutes = 25 },
    };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("", Handle)
        .WithName("recommendTagClass")
        .WithSummary("Recommend a tag class for one asset record")
        .WithDescription(
            "Any record is answered, however thin: gaps are filled from the profile the record resembles, from its surroundings and from "
            + "defaults, and each assumption is listed. Candidates are ranked by lifetime cost among those that hold every rule and read at "
            + "the wanted distance with the wanted probability. That no tag class suits is an answer too: recommendation is null and noneBecause "
            + "says what would have to change. Cautions are never complete: local codes and competent or licensed persons decide.")
        .Accepts<RecommendationRequest>("application/json")
        .WithExamples(static () => Example, ExampleAnswer)
        .WithJsonBodyProblems(ProblemTypes.ContradictoryFields, ProblemTypes.InvalidRequest)
        // As the framework's own JSON results say it: a caller without a key gets 401, not the way to a login page.
        .DisableCookieRedirect();

    /// <param name="context">The request.</param>
    /// <param name="contexts">Catalogue and measured ranges.</param>
    /// <param name="include">Comma-separated: all (every tag class instead of the best five), no-questions (leave the questions out, faster).</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<RecommendationResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] RecommendationContextSource contexts, string? include, CancellationToken cancellationToken)
    {
        using var single = BatchGate.Single();
        if (IncludeOption.Parse(include, out var options) is { } refused)
            return refused;
        var body = await JsonBody.ReadAsync<RecommendationRequest>(context, ReadOptions, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var record = body.Value.ToAssetRecord();
        if (RecordProblems.Find(record) is { } contradiction)
            return contradiction;
        return new RecommendationResult(RecommendationEngine.Recommend(record, options, contexts.Current), body.Value.OwnFieldNotices());
    }

    private static RecommendationResponse ExampleAnswer() =>
        RecommendationEngine.Recommend(Example.ToAssetRecord(), new(IncludeQuestions: true), RecommendationContext.BuiltIn).ToResponse([]);
}
