using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Features.Fitting;
using TagService.Api.Features.RangeMeasurements;
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

/// <summary>POST /v1/assets/{assetId}/attachments.</summary>
internal static class StartAttachment
{
    private const string Operation = "startAttachment";

    public static void Map(IEndpointRouteBuilder assets) => assets.MapPost("/{assetId}/attachments", Handle)
        .WithName(Operation)
        .WithSummary("Record a tag on an asset")
        .WithDescription(
            "One call records a fitter's result: identity, TID, class, fixing, labour, what was read in place, and with endPrevious the end of the "
            + "tag's or the asset's earlier attachment, all or nothing. Times may be exact, bounded or unknown, and may lie in the past; with "
            + "endReason the whole of a past attachment is recorded. An asset may have several tags; a tag is on one asset at a time, and what "
            + "is in the way is named (409). Nothing is assumed for what is left out: without a start it is not known since when, only that it "
            + "was there when recorded. Other tags that are on the asset are named in the answer. A distance recorded with its power counts as a "
            + "measured range of the class on the asset's material, or the answer says what is missing. Sent again without an Idempotency-Key, the same request finds itself in the way.")
        .Accepts<StartAttachmentRequest>("application/json")
        .Produces<StartAttachmentResponse>()
        .Produces<StartAttachmentResponse>(StatusCodes.Status201Created)
        .WithExamples(
            static () => AttachmentExamples.Start,
            static () => new StartAttachmentResponse(
                AttachmentExamples.Open, AttachmentExamples.Ended, [], new(true, AttachmentExamples.Open.TagClassId, "cast-iron", RangeFinding.AnswersAtLeast, null, null, null)))
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.ContradictoryFields, ProblemTypes.IdempotencyKeyReused,
            ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="contexts">The catalogue.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="assetId">The asset; a slash within it is written %2F.</param>
    /// <param name="idempotencyKey">Names this request.</param>
    /// <param name="include">What else to show.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<StartAttachmentResponse>, Created<StartAttachmentResponse>, ApiProblem>> Handle(
        HttpContext context,
        [FromServices] TransactedWork work,
        [FromServices] RecommendationContextSource contexts,
        [FromServices] TimeProvider clock,
        string assetId,
        [FromHeader(Name = "Idempotency-Key"), Description(TransactedRequest.KeyDescription)] string? idempotencyKey,
        [Description(AttachmentMapping.IncludeDescription)] string? include,
        CancellationToken cancellationToken)
    {
        if (AttachmentMapping.ReadInclude(include, out var withFitter) is { } refused)
            return refused;
        var body = await JsonBody.ReadAsync<StartAttachmentRequest>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var sent = body.Value;
        var tag = TagIdentityReader.Read(sent.Identity, sent.TidHex, "#/identity", out var error);
        if (tag is null)
            return new ApiProblem(ProblemTypes.InvalidFields, error!.Detail, [error]);
        var reader = new AttachmentReader(contexts.Snapshot);
        var (said, _) = reader.Lay(AttachmentMapping.Blank, sent, new HashSet<string>());
        var (previous, problem) = reader.Previous(
            sent.EndPrevious?.Reason, (sent.EndPrevious?.At, sent.EndPrevious?.NotBefore, sent.EndPrevious?.NotAfter), sent.EndPrevious?.AttachmentId);
        if (problem is not null)
            return problem.Nest();

        var key = ItemId.Of(assetId);
        var result = await TransactedRequest.RunAsync<StartAttachmentRequest, StartAttachmentResponse>(
            context, work, Operation, idempotencyKey, sent, (database, ct) => RecordAsync(database, tag, said with { AssetId = key, Tag = tag.Identity }, previous, contexts.Snapshot, clock, withFitter, ct), cancellationToken);
        return result.WithETag(context, value => (value as StartAttachmentResponse)?.Attachment);
    }

    private static async Task<Changed<StartAttachmentResponse>> RecordAsync(
        TagServiceDbContext database, TagSeen tag, Attachment said, PreviousEnd? previous, CatalogueSnapshot catalogue, TimeProvider clock, bool withFitter, CancellationToken cancellationToken)
    {
        if (!await database.Assets.AnyAsync(a => a.AssetId == said.AssetId, cancellationToken))
            return AttachmentProblems.NoSuchAsset("");
        if (await TagBatchNames.RefusalAsync(database, said.TagBatchId, cancellationToken) is { } unknown)
            return unknown;
        var now = StoredTime.Now(clock);
        var locked = await LockedAttachments.OfTagAsync(database, tag, said.AssetId, now, cancellationToken);
        switch (locked.Ledger.Start(said with { Id = Guid.CreateVersion7(now), RecordedAt = now }, previous, now))
        {
            case Recording.Started started:
                var id = started.Attachment.Id;
                var checks = await locked.SaveAsync(null, catalogue.Find, now, cancellationToken);
                var ended = started.Previous is { } before ? locked.Show(before.Id).ToResponse(withFitter) : null;
                AttachedTagResponse[] others =
                    [.. locked.Ledger.OpenOn(said.AssetId).Where(a => a.Id != id).Select(a => new AttachedTagResponse(a.Id, a.Tag, a.TagClassId))];
                return new(
                    new(locked.Show(id).ToResponse(withFitter), ended, others, checks.GetValueOrDefault(id).ToResponse()), $"/v1/attachments/{id}", null);
            case Recording.Refused refused:
                return refused.Refusal.ToProblem();
            default:
                throw new InvalidOperationException("A start is recorded or refused.");
        }
    }
}
