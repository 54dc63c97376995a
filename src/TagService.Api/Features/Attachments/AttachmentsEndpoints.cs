using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Features.ReferenceTables;
using TagService.Api.Http.OpenApi;
using TagService.Domain.Attachments;

namespace TagService.Api.Features.Attachments;

/// <summary>Which tag is or was on which asset.</summary>
public static class AttachmentsEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapAttachments(this IEndpointRouteBuilder app)
    {
        var assets = app.MapGroup("/v1/assets").WithTags(ApiTags.Attachments);
        StartAttachment.Map(assets);
        ListAssetAttachments.Map(assets);
        var attachments = app.MapGroup("/v1/attachments").WithTags(ApiTags.Attachments);
        GetAttachment.Map(attachments);
        PatchAttachment.Map(attachments);
        RecordAttachmentBatch.Map(attachments);
        ListTagAttachments.Map(app.MapGroup("/v1/tags").WithTags(ApiTags.Attachments));
        app.MapGroup("/v1").WithTags(ApiTags.Attachments).MapTable(
            "/attachment-end-reasons", "listAttachmentEndReasons", "Reasons for which attachments end",
            "Each with its kind: failures and removals never mix in lifetimes; an end whose reason nobody knows counts as neither; an entry that "
            + "never happened counts nowhere.",
            () => EndReasons.Table);
    }
}
