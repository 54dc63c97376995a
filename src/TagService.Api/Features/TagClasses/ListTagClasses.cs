using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Features.ReferenceTables;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.TagClasses;

/// <summary>GET /v1/tag-classes.</summary>
internal static class ListTagClasses
{
    // A snapshot lives until something changes: its answer is written once.
    private static readonly ConditionalWeakTable<CatalogueSnapshot, CachedJson> Answers = [];

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listTagClasses")
        .WithSummary("The catalogue of tag classes")
        .WithDescription(
            "Kinds of tag by construction, size, antenna and protection: the built-in classes with planning values of generic constructions, not of "
            + "any article, with your own figures laid over them, and your own classes. A change made elsewhere shows within a few seconds.")
        .Produces<TagClassListResponse>(StatusCodes.Status200OK, "application/json")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => new TagClassListResponse([PutTagClass.ExampleAnswer], "0a1b2c3d4e5f"))
        .WithProblems();

    private static Task Handle(HttpContext context, [FromServices] RecommendationContextSource contexts) =>
        Answers.GetValue(contexts.Snapshot, Answer).SendAsync(context, freshSeconds: 0);

    private static CachedJson Answer(CatalogueSnapshot snapshot) => CachedJson.Of(new TagClassListResponse(
        [.. snapshot.Context.Classes.Select(c => snapshot.Find(c.Id, snapshot.Day)!)], snapshot.Context.CatalogueVersion));
}
