using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Attachments;

/// <summary>GET /v1/assets/{assetId}/attachments.</summary>
internal static class ListAssetAttachments
{
    public static void Map(IEndpointRouteBuilder assets) => assets.MapGet("/{assetId}/attachments", Handle)
        .WithName("listAssetAttachments")
        .WithSummary("All attachments of an asset, present and past")
        .WithDescription(
            "In the order of their recording, entries taken back among them. The second and later ones are re-applications. Follow the Link header "
            + "with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new AttachmentPageResponse([AttachmentExamples.Ended, AttachmentExamples.Open], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="assetId">The asset; a slash within it is written %2F.</param>
    /// <param name="after">Id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most attachments on the page.</param>
    /// <param name="include">What else to show.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AttachmentPageResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string assetId, Guid? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        [Description(AttachmentMapping.IncludeDescription)] string? include, CancellationToken cancellationToken)
    {
        var key = ItemId.Of(assetId);
        if (AttachmentPage.Refusal(limit, include, out var most, out var withFitter) is { } refused)
            return refused;
        var found = await database.PageAttachmentsOfAssetAsync(key, after ?? Guid.Empty, most + 1, cancellationToken);
        if (found.Count == 0 && !await database.Assets.AnyAsync(a => a.AssetId == key, cancellationToken))
            return AttachmentProblems.NoSuchAsset("");
        return TypedResults.Ok(AttachmentPage.Of(context, found, most, withFitter));
    }
}
