using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;

namespace TagService.Api.Features.RegisterSources;

/// <summary>POST /v1/register-sources/suggest-mapping.</summary>
internal static class SuggestMapping
{
    /// <summary>Most rows that are looked at.</summary>
    public const int MostRows = 2000;

    private const int MostPlaces = 100_000;

    private static SuggestMappingRequest Example { get; } = new() { Rows = PreviewUnsavedSource.Rows };

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/suggest-mapping", Handle)
        .WithName("suggestRegisterMapping")
        .WithSummary("What each column of a register might feed")
        .WithDescription(
            "From sample rows in the body, or from the first rows of a source: one suggestion a column by its name and its values, with reasons and what to check, and a mapping "
            + $"made of those with a confidence of {SuggestedMapping.LeastConfidence} or more that can be put as it is. A suggestion is a start, not a decision: try it with "
            + "/v1/register-sources/preview. " + PreviewMaker.Limits)
        .Accepts<SuggestMappingRequest>("application/json")
        .WithExamples(static () => Example, static () => SuggestedMapping.Of(PreviewMaker.Sent(Example.Rows, null, MostRows).Sample!, [], new(2026, 5, 1)))
        .WithJsonBodyProblems(ProblemTypes.ContradictoryFields, ProblemTypes.RegisterUnreadable, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="maker">Reads samples.</param>
    /// <param name="reader">Checks what is sent.</param>
    /// <param name="database">The database.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<SuggestMappingResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] PreviewMaker maker,
        [FromServices] RegisterSourceReader reader,
        [FromServices] TagServiceDbContext database,
        [FromServices] TimeProvider clock,
        CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<SuggestMappingRequest>(context, PreviewMaker.ReadOptions, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var sent = body.Value;
        if (sent.Source is not null && (sent.Rows is not null || sent.CsvText is not null))
        {
            return ApiProblem.Contradictory(
                "There are two samples.", new ProblemError("#/source", null, "Sent together with rows or csvText.", "one of the three"),
                new ProblemError(sent.Rows is null ? "#/csvText" : "#/rows", null, "Sent together with source.", "one of the three"));
        }

        var most = sent.MaxRows ?? PreviewMaker.DefaultRows;
        var (sample, problem) = PreviewMaker.Sent(sent.Rows, sent.CsvText, most);
        if (problem is not null)
            return problem;
        if (sample is null)
        {
            if (sent.Source is null)
                return new ApiProblem(ProblemTypes.InvalidFields, "There is no sample.", [new("#", null, "None of source, rows and csvText is there.", "one of source, rows and csvText")]);
            var (source, wrong) = reader.ReadReading(sent.Source, "#/source");
            if (source is null)
                return wrong!;
            (sample, problem) = await maker.ReadAsync(source, most, cancellationToken);
            if (sample is null)
                return problem!;
        }

        var places = await database.Locations.AsNoTracking().OrderBy(l => l.Id).Select(l => new { l.Name, l.Aliases }).Take(MostPlaces).ToListAsync(cancellationToken);
        return TypedResults.Ok(SuggestedMapping.Of(sample, places.SelectMany(l => l.Aliases.Prepend(l.Name)), DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime)));
    }
}
