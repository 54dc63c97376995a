using System.Collections.Concurrent;
using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Reference;

namespace TagService.Api.Features.ReferenceTables;

/// <summary>Maps a reference table: all rows, or one.</summary>
internal static class ReferenceTableMapping
{
    /// <summary>GET of all rows.</summary>
    public static void MapTable<T>(this IEndpointRouteBuilder group, string path, string operation, string summary, string description, Func<ReferenceTable<T>> table)
        where T : class
    {
        var answer = new Lazy<CachedJson>(() => CachedJson.Of(new ReferenceTableResponse<T>(table().All)));
        group.MapGet(path, (Delegate)((HttpContext context) => answer.Value.SendAsync(context)))
            .WithName(operation)
            .WithSummary(summary)
            .WithDescription(description)
            .Produces<ReferenceTableResponse<T>>(StatusCodes.Status200OK, "application/json")
            .Produces(StatusCodes.Status304NotModified)
            .WithExamples(() => new ReferenceTableResponse<T>([table().All[0]]))
            .WithProblems();
    }

    /// <summary>GET of one row by its id.</summary>
    public static void MapRow<T>(this IEndpointRouteBuilder group, string path, string operation, string summary, string description, Func<ReferenceTable<T>> table)
        where T : class
    {
        var answers = new ConcurrentDictionary<T, CachedJson>();
        group.MapGet(path + "/{id}", async ([Description("Id of the row, without regard to case.")] string id, HttpContext context) =>
            {
                if (table().Find(id) is { } row)
                    await answers.GetOrAdd(row, static r => CachedJson.Of(r)).SendAsync(context);
                else
                    await ApiProblem.NotFound($"No row has this id; {path} lists them all.").ExecuteAsync(context);
            })
            .WithName(operation)
            .WithSummary(summary)
            .WithDescription(description)
            .Produces<T>(StatusCodes.Status200OK, "application/json")
            .Produces(StatusCodes.Status304NotModified)
            .WithExamples(() => table().All[0])
            .WithProblems(ProblemTypes.NotFound);
    }
}
