using System.Security.Cryptography;
using System.Text.Json;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Domain.TagClasses;
using TagService.Domain.Words;
using TagService.Storage.Attachments;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Attachments;

/// <summary>Turns lines into entries for the batch writer.</summary>
/// <param name="snapshot">The catalogue: one for the whole batch.</param>
/// <param name="now">Time of the batch, for the ids.</param>
internal sealed class BatchLineReader(CatalogueSnapshot snapshot, Func<DateTimeOffset> now)
{
    private static readonly IReadOnlySet<string> Nothing = new HashSet<string>();

    /// <summary>Finds a tag class of the batch's catalogue.</summary>
    public TagClass? FindClass(string id) => snapshot.Find(id);

    /// <summary>The entry; or why the line is refused.</summary>
    public (BatchEntry? Entry, ApiProblem? Problem) Read(AttachmentLineRequest sent)
    {
        if (ResourceId.FaultOf(sent.AssetId) is { } fault)
            return (null, new(ProblemTypes.InvalidFields, $"assetId: {fault}", [new("#/assetId", JsonText.Clip(sent.AssetId), fault, ResourceId.Accepted)]));
        var tag = TagIdentityReader.Read(sent.Identity, sent.TidHex, "#/identity", out var error);
        if (tag is null)
            return (null, new(ProblemTypes.InvalidFields, error!.Detail, [error]));
        var reader = new AttachmentReader(snapshot);
        var (said, _) = reader.Lay(AttachmentMapping.Blank, sent, Nothing);
        var (previous, problem) = reader.Previous(
            sent.EndPreviousReason, (sent.EndPreviousAt, sent.EndPreviousNotBefore, sent.EndPreviousNotAfter), sent.EndPreviousAttachmentId);
        return problem is not null
            ? (null, problem)
            : (new(tag, new(KeyOf(sent with { Identity = tag.Identity }), said with { Id = Guid.CreateVersion7(now()), Tag = tag.Identity, AssetId = sent.AssetId }, previous)), null);
    }

    // Members that are absent are not written, so that lines keep their keys when later versions know more members.
    private static Guid KeyOf(AttachmentLineRequest sent) => new(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(sent, WireJson.Options)).AsSpan(0, 16));
}
