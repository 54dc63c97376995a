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
using TagService.Intake.Registers;
using TagService.Storage;

namespace TagService.Api.Features.RegisterSources;

/// <summary>POST /v1/register-sources/{name}/preview.</summary>
internal static class PreviewRegisterSource
{
    public static void Map(IEndpointRouteBuilder group) => group.MapPost("/{name}/preview", Handle)
        .WithName("previewRegisterSource")
        .WithSummary("What a run of a saved source would do; nothing is written")
        .WithDescription(
            "Reads the first rows of the source (or takes rows from the body), maps them and compares them with the mirror: per row what would change, or why it would be refused; "
            + "over all rows the values that were not understood or not recognised, and columns that feed a field but are missing. " + PreviewMaker.Limits)
        .Accepts<PreviewSourceRequest>("application/json")
        .WithExamples(static () => new PreviewSourceRequest { MaxRows = 50, Rows = PreviewUnsavedSource.Rows }, static () => PreviewUnsavedSource.Answer)
        .WithJsonBodyProblems(ProblemTypes.NotFound, ProblemTypes.ContradictoryFields, ProblemTypes.RegisterUnreadable, ProblemTypes.Conflict, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="maker">Makes previews.</param>
    /// <param name="reader">Checks the source against the configuration of the moment.</param>
    /// <param name="name">Name of the source; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<PreviewResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, [FromServices] PreviewMaker maker, [FromServices] RegisterSourceReader reader, string name,
        CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<PreviewSourceRequest>(context, PreviewMaker.ReadOptions, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var key = ItemId.Of(name);
        if (!ItemId.IsUsable(key, null, out _) || await RegisterSourceStore.FindAsync(database, key, cancellationToken) is not { } row)
            return RegisterSourceMapping.NotFound();
        var most = body.Value.MaxRows ?? PreviewMaker.DefaultRows;
        var (sample, problem) = PreviewMaker.Sent(body.Value.Rows, body.Value.CsvText, most);
        if (problem is not null)
            return problem;
        var source = RegisterSourceJson.Read(row.Settings);
        if (source.Mapping.Compile() is not MappingCompilation.Usable { Mapper: var mapper })
            return new ApiProblem(ProblemTypes.Conflict, $"The stored mapping of {key} cannot be used by this program version; save it anew.");
        if (sample is null)
        {
            // Saved under another configuration: a folder or credential may be gone.
            if (reader.Fault(source) is { } fault)
                return new ApiProblem(ProblemTypes.Conflict, $"The source {key} cannot be read with the operator's present configuration.", fault);
            (sample, problem) = await maker.ReadAsync(source, most, cancellationToken);
            if (sample is null)
                return problem!;
        }

        return TypedResults.Ok(await maker.PreviewAsync(sample, mapper, key, cancellationToken));
    }
}
