using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
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
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.RegisterSyncs;

/// <summary>GET /v1/register-syncs.</summary>
internal static class ListRegisterSyncs
{
    private const int MaxStateLength = 20;

    private static readonly IReadOnlyList<string> States = JsonShape.Of(typeof(RegisterSyncState)).Choices;

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listRegisterSyncs")
        .WithSummary("Runs over register sources, latest first")
        .WithDescription(
            "Of each source the latest 100 runs that are over are kept, with their refused rows. Follow the Link header with rel=\"next\" (RFC 8288) back in time until there is none.")
        .WithExamples(static () => new RegisterSyncPageResponse([RegisterSyncMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="source">Only runs of this source.</param>
    /// <param name="state">Only runs in this state: waiting, running, done, held, failed or cancelled.</param>
    /// <param name="before">Number of a run before which the page begins, without unit; the latest if absent.</param>
    /// <param name="limit">Most runs on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<RegisterSyncPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [FromServices] TimeProvider clock,
        [MaxLength(ItemId.MaxLength)] string? source,
        [MaxLength(MaxStateLength)] string? state,
        [Range(1, long.MaxValue)] long? before,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        if ((Paging.Refusal(limit) ?? ItemId.Refusal("source", source, ItemId.MaxLength)) is { } problem)
            return problem;
        if (before < 1)
            return new ApiProblem(ProblemTypes.InvalidRequest, FormattableString.Invariant($"before is {before}; accepted: 1 or more."));
        if (state is not null && !States.Contains(state))
            return new ApiProblem(ProblemTypes.InvalidRequest, $"state is {JsonText.Clip(state)}; accepted: {string.Join(", ", States)}.");
        var most = limit ?? Paging.DefaultLimit;
        var wanted = state is null ? (RegisterSyncState?)null : Enum.Parse<RegisterSyncState>(state, ignoreCase: true);
        var found = await database.PageRegisterSyncs(source, wanted, before ?? long.MaxValue, most + 1).ToListAsync(cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "before", s => (long?)s.Id);
        var now = clock.GetUtcNow();
        return TypedResults.Ok(new RegisterSyncPageResponse([.. items.Select(s => s.ToResponse(now))], next));
    }
}
