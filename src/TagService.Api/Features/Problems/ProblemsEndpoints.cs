using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;

namespace TagService.Api.Features.Problems;

/// <summary>The problem types, documented where they are served.</summary>
public static class ProblemsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapProblems(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/problems").WithTags(ApiTags.Operations);
        group.MapGet("", ListProblems)
            .WithName("listProblems")
            .WithSummary("All problem types")
            .WithDescription("Every type URI that an error answer (RFC 9457) of this interface can carry, with its status, meaning and what to do about it.")
            .WithExamples(static () => new ProblemListResponse([ProblemTypes.InvalidFields]))
            .WithProblems();
        group.MapGet("/{name}", GetProblem)
            .WithName("getProblem")
            .WithSummary("One problem type")
            .WithDescription("The problem type whose URI ends with this name.")
            .WithExamples(static () => ProblemTypes.InvalidFields)
            .WithProblems(ProblemTypes.NotFound);
    }

    private static Ok<ProblemListResponse> ListProblems() => TypedResults.Ok(new ProblemListResponse(ProblemTypes.All));

    private static Results<Ok<ProblemType>, ApiProblem> GetProblem(
        [Description("Last segment of the type's URI, for example invalid-fields.")] string name) =>
        ProblemTypes.All.FirstOrDefault(t => t.Name == name) is { } type
            ? TypedResults.Ok(type)
            : ApiProblem.NotFound("There is no such problem type; /problems lists them all.");
}
