using System.Globalization;
using Microsoft.AspNetCore.Http;
using TagService.Api.Http.Problems;
using TagService.Storage.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>Pages of attachments.</summary>
internal static class AttachmentPage
{
    public const int DefaultLimit = 100;
    public const int MaxLimit = 1000;

    /// <summary>The problem with the parameters, or null.</summary>
    public static ApiProblem? Refusal(int? limit, string? include, out int most, out bool withFitter)
    {
        most = limit ?? DefaultLimit;
        return AttachmentMapping.ReadInclude(include, out withFitter)
            ?? (most is < 1 or > MaxLimit ? new(ProblemTypes.InvalidRequest, FormattableString.Invariant($"limit is {most}; accepted: 1 to {MaxLimit}.")) : null);
    }

    /// <summary>The page, with the address of the next one in the Link header.</summary>
    /// <param name="context">The request.</param>
    /// <param name="found">One more than wanted shows whether there is a next page.</param>
    /// <param name="most">Most attachments on the page.</param>
    /// <param name="withFitter">Shows the fitter.</param>
    public static AttachmentPageResponse Of(HttpContext context, List<StoredAttachment> found, int most, bool withFitter)
    {
        var next = found.Count > most ? found[most - 1].Attachment.Id : (Guid?)null;
        if (next is not null)
        {
            context.Response.Headers.Link = string.Create(
                CultureInfo.InvariantCulture,
                $"<{context.Request.PathBase.ToUriComponent()}{context.Request.Path.ToUriComponent()}?after={next}&limit={most}{(withFitter ? "&include=fitter" : "")}>; rel=\"next\"");
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        return new([.. found.Take(most).Select(f => f.ToResponse(withFitter))], next);
    }
}
