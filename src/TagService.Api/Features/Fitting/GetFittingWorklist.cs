using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.WebUtilities;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Api.Pages.Fitting;
using TagService.Api.Pages.Shared;
using TagService.Storage.Changes;
using TagService.Storage.Fitting;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Fitting;

/// <summary>GET /v1/fitting-worklist.</summary>
internal static class GetFittingWorklist
{
    private const int MaxText = 200;
    private const int MaxCursor = 2000;
    private static readonly Representation[] Offered = [Representation.Json, Representation.Html, Representation.Csv];

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/fitting-worklist", Handle)
        .WithName("getFittingWorklist")
        .WithSummary("Assets without a tag, place by place, with what to take along")
        .WithDescription(
            "Assets in service that have no open attachment, in the order of the register's words for their places, those without any at the end: recommended tag class and fixing, "
            + "minutes, identity, cautions. Totals say how many tags of each class to carry, with spares by the planning share of tags that fail the "
            + "acceptance check, which tools and consumables to bring, and how long it takes; they are those of this page, which is one round. Assets for "
            + "which no tag class suits stand in a list of their own with the reason. Looking takes no identities; reserve=true takes one from the default "
            + "numbering rule for each item that has none. With Accept: text/csv or format=csv the items as CSV (RFC 4180; a field that begins like a "
            + "formula gets an apostrophe before it), with Accept: text/html or format=html a page to print. The Link header (RFC 8288) has the address of the next page.")
        .Produces<FittingWorklistResponse>(StatusCodes.Status200OK, "application/json", "text/html", "text/csv")
        .WithExamples(static () => FittingExamples.Worklist)
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="builder">Plans the round.</param>
    /// <param name="contexts">Catalogue and measured ranges.</param>
    /// <param name="location">Only this place: id, name or alias of a location, or the register's words.</param>
    /// <param name="under">Only this location and those that lie in it: id, name or alias.</param>
    /// <param name="tagClass">Only assets for which this tag class is recommended, an id of /v1/tag-classes.</param>
    /// <param name="after">Where the page begins: nextAfter of the page before.</param>
    /// <param name="limit">Most assets on the page.</param>
    /// <param name="reserve">Take an identity for each item that has none.</param>
    /// <param name="format">json, html or csv; without it Accept decides.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<IResult> Handle(
        HttpContext context,
        [FromServices] WorklistBuilder builder,
        [FromServices] RecommendationContextSource contexts,
        [MaxLength(MaxText)] string? location,
        [MaxLength(MaxText)] string? under,
        [MaxLength(MaxText)] string? tagClass,
        [MaxLength(MaxCursor)] string? after,
        [Range(1, WorklistQuery.MaxLimit), DefaultValue(WorklistQuery.DefaultLimit)] int? limit,
        [DefaultValue(false)] bool? reserve,
        [AllowedValues("json", "html", "csv", null)] string? format,
        CancellationToken cancellationToken)
    {
        if (Representation.Choose(context.Request, format, Offered, out var wanted) is { } refused)
            return refused;
        if (Check(contexts.Current, location, under, tagClass, after, limit, out var position) is { } wrong)
            return wrong;
        ChangeOrigin.Actor = context.User.Identity?.Name ?? ChangeOrigin.UnnamedCaller;
        var query = new WorklistQuery(location, under, tagClass, position, limit ?? WorklistQuery.DefaultLimit, reserve ?? false);
        var (list, problem) = await builder.BuildAsync(query, contexts.Current, cancellationToken);
        if (list is null)
            return problem!;

        var answer = list.ToResponse(query.Reserve);
        var headers = context.Response.Headers;
        if (answer.NextAfter is { } next)
            headers.Link = $"<{NextPage(context.Request, next)}>; rel=\"next\"";
        headers.CacheControl = "private, no-cache";
        headers.Vary = "Accept";
        if (wanted == Representation.Html)
        {
            return new PageResult<WorklistPage>(new Dictionary<string, object?>
            {
                [nameof(WorklistPage.Worklist)] = answer,
                [nameof(WorklistPage.Asked)] = location ?? under,
                [nameof(WorklistPage.Next)] = answer.NextAfter is { } cursor ? NextPage(context.Request, cursor) : null,
            });
        }

        return wanted == Representation.Csv ? TypedResults.Text(answer.ToCsv(), "text/csv; header=present", Encoding.UTF8) : TypedResults.Ok(answer);
    }

    private static ApiProblem? Check(
        Domain.Recommendations.RecommendationContext catalogue, string? location, string? under, string? tagClass, string? after, int? limit,
        out WorklistPosition? position)
    {
        position = null;
        foreach (var (name, text) in new[] { (nameof(location), location), (nameof(under), under), (nameof(tagClass), tagClass) })
        {
            if (text?.Length > MaxText)
                return WorklistQuery.Refuse(name, text, $"It has {text.Length} characters.", $"at most {MaxText} characters");
        }

        if (limit is < 1 or > WorklistQuery.MaxLimit)
            return WorklistQuery.Refuse(nameof(limit), limit.Value.ToString(CultureInfo.InvariantCulture), "It is out of range.", $"1 to {WorklistQuery.MaxLimit}");
        if (tagClass is not null && catalogue.Classes.All(c => c.Id != tagClass))
            {
            var near = NearestName.Of(tagClass, catalogue.Classes.Select(c => c.Id));
            return WorklistQuery.Refuse(nameof(tagClass), tagClass, "No tag class has this id.", $"an id of /v1/tag-classes{(near is null ? "" : $", perhaps {near}")}");
        }

        if (after is null)
            return null;
        if (after.Length > MaxCursor || !WorklistQuery.TryPosition(after, out var found))
            return WorklistQuery.Refuse(nameof(after), after, "It is none that a page of this list has given.", "nextAfter of the page before");
        position = found;
        return null;
    }

    // All that was asked, from another place on.
    private static string NextPage(HttpRequest request, string cursor) => QueryHelpers.AddQueryString(
        $"{request.PathBase}{request.Path}",
        request.Query.Where(q => q.Key != "after").Select(q => KeyValuePair.Create(q.Key, (string?)q.Value.ToString())).Append(KeyValuePair.Create("after", (string?)cursor)));
}
