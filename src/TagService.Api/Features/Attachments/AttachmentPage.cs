using Microsoft.AspNetCore.Http;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Storage.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>Pages of attachments.</summary>
internal static class AttachmentPage
{
    /// <summary>The problem with the parameters, or null.</summary>
    public static ApiProblem? Refusal(int? limit, string? include, out int most, out bool withFitter)
    {
        most = limit ?? Paging.DefaultLimit;
        return AttachmentMapping.ReadInclude(include, out withFitter) ?? Paging.Refusal(limit);
    }

    /// <summary>The page, with the address of the next one in the Link header.</summary>
    /// <param name="context">The request.</param>
    /// <param name="found">Up to one more than wanted.</param>
    /// <param name="most">Most attachments on the page.</param>
    /// <param name="withFitter">Shows the fitter.</param>
    public static AttachmentPageResponse Of(HttpContext context, List<StoredAttachment> found, int most, bool withFitter)
    {
        var (items, next) = Paging.Page(context, found, most, "after", static a => (Guid?)a.Attachment.Id);
        return new([.. items.Select(a => a.ToResponse(withFitter))], next);
    }
}
