using System.ComponentModel;
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

/// <summary>GET /v1/attachments/{id}.</summary>
internal static class GetAttachment
{
    public static void Map(IEndpointRouteBuilder attachments) => attachments.MapGet("/{id}", Handle)
        .WithName("getAttachment")
        .WithSummary("One attachment")
        .WithDescription("The ETag changes with any of its values; send it in If-Match when you change it, in If-None-Match to get 304 while nothing has changed.")
        .Produces(StatusCodes.Status304NotModified)
        .WithExamples(static () => AttachmentExamples.Open)
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="id">Id of the attachment.</param>
    /// <param name="include">What else to show.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AttachmentResponse>, StatusCodeHttpResult, ApiProblem>> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, string id,
        [Description(AttachmentMapping.IncludeDescription)] string? include, CancellationToken cancellationToken)
    {
        if (AttachmentMapping.ReadInclude(include, out var withFitter) is { } refused)
            return refused;
        return Guid.TryParse(id, out var attachmentId) && await database.FindAttachmentAsync(attachmentId, cancellationToken) is { } stored
            ? ItemRequest.Show(context, stored.ToResponse(withFitter), stored.Version)
            : AttachmentProblems.NoSuchAttachment();
    }
}
