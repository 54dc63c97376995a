using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Features.ReferenceTables;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Api.Features.TagClasses;

/// <summary>PUT /v1/tag-classes/{id}.</summary>
internal static class PutTagClass
{
    private static readonly DateTimeOffset ExampleTime = new(2026, 6, 1, 9, 30, 0, TimeSpan.Zero);

    // Invented: nobody's article.
    private static readonly TagClassRequest Example = new()
    {
        Name = "Pump-house plate tag",
        Description = "Hard tag on a steel plate as our workshop makes it.",
        Technology = TagTechnology.Uhf,
        Size = new(90, 30, 8),
        Antenna = new()
        {
            Kind = AntennaKind.GroundPlane, ReferenceGainDbi = 0, BandwidthMhz = 12, StandoffMm = 5, ThresholdDbm = -20, ReferencePlateMm = 200, OffMetalPenaltyDb = 8,
        },
        Limits = new()
        {
            TemperatureMinC = -40, TemperatureMaxC = 85, PeakTemperatureC = 120, IpCodes = ["IP66", "IP68"], ImmersionM = 1, ImpactJ = 20, Abrasion = Level.High,
            Flexing = Level.None, UvYears = 10, FaceMaterial = "abs", TamperResistance = Level.Medium, Printable = true,
        },
        AttachmentMethods = ["screws"],
        Memory = new(128, 0, true),
        Price = new() { Typical = 3.2, Currency = "EUR", AtQuantity = 500, ValidUntil = new(2027, 3, 31) },
        ApplicationMinutes = 1.5,
        Life = new(1.5, 12, 2),
        Source = "own measurement of ten samples (invented example)",
    };

    public static TagClassResponse ExampleAnswer { get; } =
        TagClassMapping.Of("pump-house-plate", new(Example.ToOwnClass("pump-house-plate"), ExampleTime), new(2026, 6, 1))!;

    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{id}", Handle)
        .WithName("putTagClass")
        .WithSummary("Your own tag class, or your own figures over a built-in one")
        .WithDescription(
            "Under an id of your own: a whole class. Under the id of a built-in class: price, certificate, applicationMinutes and notes laid over it; "
            + "its construction does not change (409), a class of another construction goes under another id. The request replaces what was there before; "
            + "send If-Match with the ETag you have seen, or If-None-Match: * to create only. A class that claims more than an antenna of its size can do "
            + "is taken with a warning. A certificate is taken as entered: the site's competent person decides what may be fitted in a zone.")
        .Accepts<TagClassRequest>("application/json")
        .WithExamples(static () => Example, static () => ExampleAnswer)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="store">Where overlays are kept.</param>
    /// <param name="id">Id of the class: a built-in one, or lower-case words of your own joined by hyphens.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<TagClassResponse>, Created<TagClassResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] OverlayStore store, string id, CancellationToken cancellationToken)
    {
        var body = await JsonBody.ReadAsync<TagClassRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var overlay = Overlay(id, body.Value, out var problem);
        if (overlay is null)
            return problem!;
        var (answer, created, refused) = await store.PutAsync(context.Request, overlay, cancellationToken);
        if (answer is null)
            return refused!;
        context.Response.GetTypedHeaders().ETag = CachedJson.Of(answer).Tag;
        return created ? TypedResults.Created($"/v1/tag-classes/{answer.Id}", answer) : TypedResults.Ok(answer);
    }

    private static TagClassOverlay? Overlay(string id, TagClassRequest request, out ApiProblem? problem)
    {
        problem = TagClassProblems.OfId(id, request);
        if (problem is not null)
            return null;
        var builtIn = TagClassCatalogue.BuiltIn.Find(id);
        problem = builtIn is null ? TagClassProblems.OfMissing(request) : TagClassProblems.OfBuiltIn(request, builtIn);
        if (problem is not null)
            return null;
        var overlay = builtIn is null ? request.ToOwnClass(id) : request.ToOverlay(builtIn.Id);
        problem = TagClassProblems.OfFaults(overlay);
        return problem is null ? overlay : null;
    }
}
