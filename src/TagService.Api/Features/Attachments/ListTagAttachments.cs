using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Attachments;

/// <summary>GET /v1/tags/{identity}/attachments.</summary>
internal static class ListTagAttachments
{
    public static void Map(IEndpointRouteBuilder tags) => tags.MapGet("/{identity}/attachments", Handle)
        .WithName("listTagAttachments")
        .WithSummary("All attachments of a tag, present and past")
        .WithDescription(
            "The tag by its identity in any form; what counts is the decoded key, so other schemes and filter values lead to the same tag. In the "
            + "order of their recording, entries taken back among them. Follow the Link header with rel=\"next\" (RFC 8288) until there is none.")
        .WithExamples(static () => new AttachmentPageResponse([AttachmentExamples.Open], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="identity">EPC in hexadecimal, EPC URI, GS1 Digital Link or element string; a slash within it is written %2F.</param>
    /// <param name="after">Id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most attachments on the page.</param>
    /// <param name="include">What else to show.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AttachmentPageResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string identity, Guid? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        [Description(AttachmentMapping.IncludeDescription)] string? include, CancellationToken cancellationToken)
    {
        if (AttachmentPage.Refusal(limit, include, out var most, out var withFitter) is { } refused)
            return refused;
        var tag = TagIdentityReader.Read(ItemId.Of(identity), null, "identity", out var error);
        if (tag is null)
            return new ApiProblem(ProblemTypes.InvalidRequest, error!.Detail, [error]);
        return await database.FindTagIdAsync(tag.Identity, cancellationToken) is { } id
            ? TypedResults.Ok(AttachmentPage.Of(context, await database.PageAttachmentsOfTagAsync(id, after ?? Guid.Empty, most + 1, cancellationToken), most, withFitter))
            : ApiProblem.NotFound($"No attachment of the tag {tag.Identity} was ever recorded.");
    }
}
