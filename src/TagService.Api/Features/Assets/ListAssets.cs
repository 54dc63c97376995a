using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Assets;

/// <summary>GET /v1/assets.</summary>
internal static class ListAssets
{
    private const int DefaultLimit = 100;
    private const int MaxLimit = 1000;
    private const int MaxIdLength = 200;

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listAssets")
        .WithSummary("All assets, page by page")
        .WithDescription(
            "Assets in ordinal order of their ids. The next page begins behind the last id of this one, so that assets added or removed "
            + "meanwhile move nothing; follow the Link header with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new AssetPageResponse([AssetMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="after">Asset id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most assets on the page.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AssetPageResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [MaxLength(MaxIdLength)] string? after,
        [Range(1, MaxLimit), DefaultValue(DefaultLimit)] int? limit,
        CancellationToken cancellationToken)
    {
        var most = limit ?? DefaultLimit;
        if (most is < 1 or > MaxLimit)
            return Refuse(FormattableString.Invariant($"limit is {most}; accepted: 1 to {MaxLimit}."));
        if (after?.Length > MaxIdLength)
            return Refuse(FormattableString.Invariant($"after has {after.Length} characters; asset ids have at most {MaxIdLength}."));
        if (after?.Contains('\0', StringComparison.Ordinal) ?? false)
            return Refuse("after holds a NUL character; asset ids hold none.");

        // One more than wanted shows whether there is a next page.
        var found = await database.PageAssets(after ?? "", most + 1).ToListAsync(cancellationToken);
        var next = found.Count > most ? found[most - 1].Asset.AssetId : null;
        if (next is not null)
            context.Response.Headers.Link = NextPage(context.Request, next, most);
        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.Ok(new AssetPageResponse([.. found.Take(most).Select(a => a.ToResponse())], next));
    }

    private static string NextPage(HttpRequest request, string after, int limit) => string.Create(
        CultureInfo.InvariantCulture, $"<{request.PathBase}{request.Path}?after={Uri.EscapeDataString(after)}&limit={limit}>; rel=\"next\"");

    private static ApiProblem Refuse(string detail) => new(ProblemTypes.InvalidRequest, detail);
}
