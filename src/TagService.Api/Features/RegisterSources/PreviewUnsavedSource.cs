using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Registers;
using TagService.Intake.Registers.Preview;

namespace TagService.Api.Features.RegisterSources;

/// <summary>POST /v1/register-sources/preview.</summary>
internal static class PreviewUnsavedSource
{
    public static IReadOnlyList<JsonElement> Rows { get; } = JsonSerializer.Deserialize<JsonElement[]>(RegisterSourceExamples.RowsJson)!;

    private static PreviewUnsavedRequest Example { get; } = new() { Source = new() { Mapping = RegisterSourceExamples.Mapping }, MaxRows = 50, Rows = Rows };

    /// <summary>As an empty mirror would answer.</summary>
    public static PreviewResponse Answer
    {
        get
        {
            var sample = PreviewMaker.Sent(Rows, null, PreviewMaker.DefaultRows).Sample!;
            var mapper = RegisterSourceReader.ReadMapping(RegisterSourceExamples.Mapping, "#").Mapper!;
            return PreviewMaker.ToResponse(sample, RegisterDryRun.OnEmptyMirror(sample, mapper, new(2026, 5, 1)));
        }
    }

    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/preview", Handle)
        .WithName("previewUnsavedRegisterSource")
        .WithSummary("What a run of a source would do before it is saved; nothing is written")
        .WithDescription(
            "The same for a source that is not saved yet, so that a mapping is tried before it is used: the body of PUT stands in source. With rows or csvText in the body nothing "
            + "is read from outside, and neither http, csv nor spreadsheet is needed. " + PreviewMaker.Limits)
        .Accepts<PreviewUnsavedRequest>("application/json")
        .WithExamples(static () => Example, static () => Answer)
        .WithJsonBodyProblems(ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.RegisterUnreadable, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="maker">Makes previews.</param>
    /// <param name="reader">Checks what is sent.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<PreviewResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] PreviewMaker maker, [FromServices] RegisterSourceReader reader, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<PreviewUnsavedRequest>(context, PreviewMaker.ReadOptions, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var sent = body.Value;
        if (sent.Replaces is { } name && !ItemId.IsUsable(name, null, out var unusable))
            return unusable;
        var most = sent.MaxRows ?? PreviewMaker.DefaultRows;
        var (sample, problem) = PreviewMaker.Sent(sent.Rows, sent.CsvText, most);
        if (problem is not null)
            return problem;
        if (sample is not null && sent.Source is { Http: null, Csv: null, Spreadsheet: null })
        {
            var (alone, wrong) = RegisterSourceReader.ReadMapping(sent.Source.Mapping, "#/source");
            return alone is null ? wrong! : TypedResults.Ok(await maker.PreviewAsync(sample, alone, sent.Replaces, cancellationToken));
        }

        (var source, problem) = reader.Read(sent.Source, "#/source");
        if (source is null)
            return problem!;
        if (sample is null)
        {
            (sample, problem) = await maker.ReadAsync(source, most, cancellationToken);
            if (sample is null)
                return problem!;
        }

        return source.Mapping.Compile() is MappingCompilation.Usable { Mapper: var mapper }
            ? TypedResults.Ok(await maker.PreviewAsync(sample, mapper, sent.Replaces, cancellationToken))
            : throw new InvalidOperationException("A source without issues has a mapping that can be used.");
    }
}
