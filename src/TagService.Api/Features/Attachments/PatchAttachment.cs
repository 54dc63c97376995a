using System.ComponentModel;
using System.Text.Json.Serialization;
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
using TagService.Domain.Attachments;
using TagService.Storage;
using TagService.Storage.Attachments;
using TagService.Storage.Idempotency;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>PATCH /v1/attachments/{id}.</summary>
internal static class PatchAttachment
{
    private const string Operation = "patchAttachment";

    public static void Map(IEndpointRouteBuilder attachments) => attachments.MapPatch("/{id}", Handle)
        .WithName(Operation)
        .WithSummary("End or correct an attachment")
        .WithDescription(
            "A merge patch (RFC 7396): members that are sent replace, null clears, absent ones stay. endReason, with or without a time, ends it; "
            + "null as endReason takes the end back; the reason never-happened takes the whole entry back. Anything but the tag can be corrected, "
            + "in any order; what cannot be with the tag's other attachments is refused with the one in the way (409). The answer says what "
            + "changed; every change is kept in the history of changes. Sending anything of the check, the class, the fixing or the asset weighs the check "
            + "anew as a measured range, with what the asset's record says now. Send If-Match with the ETag you have seen.")
        .Accepts<AttachmentPatchRequest>("application/merge-patch+json", "application/json")
        .Produces<ChangedAttachmentResponse>()
        .WithExamples(
            static () => AttachmentExamples.Patch,
            static () => new ChangedAttachmentResponse(
                AttachmentExamples.Ended, [new("endReason", null, "damaged"), new("endKind", null, "failure"), new("endAt", null, "2026-05-04T09:40:00+00:00")], null))
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.PreconditionFailed, ProblemTypes.ContradictoryFields,
            ProblemTypes.IdempotencyKeyReused, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="contexts">The catalogue.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="id">Id of the attachment.</param>
    /// <param name="idempotencyKey">Names this request.</param>
    /// <param name="include">What else to show.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<ChangedAttachmentResponse>, Created<ChangedAttachmentResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TransactedWork work,
        [FromServices] RecommendationContextSource contexts,
        [FromServices] TimeProvider clock,
        string id,
        [FromHeader(Name = "Idempotency-Key"), Description(TransactedRequest.KeyDescription)] string? idempotencyKey,
        [Description(AttachmentMapping.IncludeDescription)] string? include,
        CancellationToken cancellationToken)
    {
        if (AttachmentMapping.ReadInclude(include, out var withFitter) is { } refused)
            return refused;
        var (body, cleared) = await MergePatch.ReadAsync<AttachmentPatchRequest>(context, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        if (cleared.Contains("assetId"))
            return new ApiProblem(ProblemTypes.InvalidFields, "An attachment has an asset.", [new("#/assetId", "null", "assetId must not be null.", "an id of /v1/assets")]);
        if (!Guid.TryParse(id, out var attachmentId))
            return AttachmentProblems.NoSuchAttachment();
        var sent = new Patch(body.Value, [.. cleared.Order(StringComparer.Ordinal)]);
        var result = await TransactedRequest.RunAsync<Patch, ChangedAttachmentResponse>(
            context, work, Operation, idempotencyKey, sent,
            (database, ct) => ChangeAsync(database, context.Request, attachmentId, sent, contexts.Snapshot, clock.GetUtcNow(), withFitter, ct), cancellationToken);
        return result.WithETag(context, value => (value as ChangedAttachmentResponse)?.Attachment);
    }

    private static async Task<Changed<ChangedAttachmentResponse>> ChangeAsync(
        TagServiceDbContext database, HttpRequest request, Guid id, Patch sent, CatalogueSnapshot catalogue, DateTimeOffset now, bool withFitter,
        CancellationToken cancellationToken)
    {
        var locked = await LockedAttachments.OfAttachmentAsync(database, id, now, cancellationToken);
        if (locked is null)
            return AttachmentProblems.NoSuchAttachment();
        var before = locked.Show(id);
        if (Preconditions.Refusal(request, before.EntityTag()) is { } failed)
            return failed;
        var (right, problem) = new AttachmentReader(catalogue).Lay(before.Attachment with { AssetId = sent.Values.AssetId ?? before.Attachment.AssetId }, sent.Values, sent.Cleared.ToHashSet());
        if (problem is not null)
            return problem;
        if (right.AssetId != before.Attachment.AssetId && !await database.Assets.AnyAsync(a => a.AssetId == right.AssetId, cancellationToken))
        {
            return new ApiProblem(
                ProblemTypes.Conflict, $"No asset has the id {right.AssetId}.", [new("#/assetId", JsonText.Clip(right.AssetId), "No asset has this id.", "an id of /v1/assets")]);
        }

        if (right.TagBatchId != before.Attachment.TagBatchId && await TagBatchNames.RefusalAsync(database, right.TagBatchId, cancellationToken) is { } unknown)
            return unknown;
        if (locked.Ledger.Correct(right, now) is Recording.Refused refused)
            return refused.Refusal.ToProblem();
        var checks = await locked.SaveAsync(sent.Weighs ? id : null, catalogue.Find, now, cancellationToken);
        var after = locked.Show(id);
        var changed = AttachmentMapping.Differences(before.ToResponse(withFitter: true), after.ToResponse(withFitter: true));
        return new ChangedAttachmentResponse(
            after.ToResponse(withFitter), [.. changed.Select(c => c.Field == "fitterId" && !withFitter ? new FieldChangeResponse(c.Field, null, null) : c)],
            checks.GetValueOrDefault(id).ToResponse());
    }

    /// <summary>The patch as understood: which members are null belongs to it.</summary>
    private sealed record Patch(AttachmentPatchRequest Values, string[] Cleared)
    {
        /// <summary>Has it anything that a measured range depends on?</summary>
        [JsonIgnore]
        public bool Weighs => (Values.MeasuredRangeM ?? Values.AnsweredAtM ?? Values.SilentAtM ?? Values.CheckEirpDbm) is not null
            || (Values.CheckRegion ?? Values.CheckSite ?? Values.TagClassId ?? Values.AttachmentMethod ?? Values.AssetId) is not null || Values.CheckReaderKind is not null;
    }
}
