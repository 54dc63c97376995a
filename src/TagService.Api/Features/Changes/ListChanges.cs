using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Changes;

/// <summary>GET /v1/changes.</summary>
internal static class ListChanges
{
    private const int MaxKindLength = 60;
    private const int MaxKeyLength = 200;

    private static readonly ChangeResponse Example = new(
        17, new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero), "unnamed-caller", "4bf92f3577b34da6a3ce929d0e0e4736", AuditKinds.TagBatch, "2026-04-plates", ChangeAction.Changed,
        Members("""{"id":"2026-04-plates","tagClassId":"hard-metal-mount-large","quantity":500}"""),
        Members("""{"id":"2026-04-plates","tagClassId":"hard-metal-mount-large","quantity":480}"""));

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listChanges")
        .WithSummary("Who changed what, and when")
        .WithDescription(
            $"Every change that people and jobs made to items of the kinds {string.Join(", ", AuditKinds.All)}: who, when, the item before and after. Written in the "
            + "transaction of the change, never changed afterwards; latest first. Follow the Link header with rel=\"next\" (RFC 8288) back in time until there is none. "
            + "What points to a person, such as an attachment's fitterId, is shown as there and as another one, not as what it is. Handing out numbers of a numbering rule is no change of the rule and stands with what they were handed out for.")
        .WithExamples(static () => new ChangePageResponse([Example], null, AuditKinds.All))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="kind">Only items of this kind.</param>
    /// <param name="key">Only the item with this id; needs kind.</param>
    /// <param name="before">Id of a change before which the page begins, without unit; the latest if absent.</param>
    /// <param name="limit">Most changes on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<ChangePageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(MaxKindLength)] string? kind,
        [MaxLength(MaxKeyLength)] string? key,
        [Range(1, long.MaxValue)] long? before,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var problem = Paging.Refusal(limit) ?? OfKind(kind) ?? ItemId.Refusal("key", key, MaxKeyLength);
        if (problem is not null)
            return problem;
        if (key is not null && kind is null)
            return new ApiProblem(ProblemTypes.InvalidRequest, $"key is sent without kind, and ids are unique within a kind only; accepted: key together with kind ({string.Join(", ", AuditKinds.All)}).");
        if (before < 1)
            return new ApiProblem(ProblemTypes.InvalidRequest, FormattableString.Invariant($"before is {before}; accepted: 1 or more."));

        var most = limit ?? Paging.DefaultLimit;
        var found = await database.PageChanges(kind, key, before ?? long.MaxValue, most + 1).ToListAsync(cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "before", c => (long?)c.Id);
        return TypedResults.Ok(new ChangePageResponse([.. items.Select(ToResponse)], next, AuditKinds.All));
    }

    private static ApiProblem? OfKind(string? kind)
    {
        if (kind is null || AuditKinds.All.Contains(kind))
            return null;
        var near = NearestName.Of(kind, AuditKinds.All);
        return new(
            ProblemTypes.InvalidRequest,
            $"kind is {JsonText.Clip(kind)}{(near is null ? "" : $", perhaps {near} is meant")}; accepted: {string.Join(", ", AuditKinds.All)}.");
    }

    private static ChangeResponse ToResponse(ChangeRow row)
    {
        var (before, after) = ChangeMembers.Of(row);
        return new(row.Id, row.At, row.Actor, row.TraceId, row.Kind, row.Key, row.Action, before, after);
    }

    private static Dictionary<string, JsonElement>? Members(string json) => JsonSerializer.Deserialize<Dictionary<string, JsonElement>>(json, WireJson.Options);
}
