using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.Problems;
using TagService.Domain.Fitting;
using TagService.Domain.Identity.Text;
using TagService.Storage;
using TagService.Storage.Fitting;

namespace TagService.Api.Features.Fitting;

/// <summary>What is asked about the identity of the tag to be fitted.</summary>
/// <param name="Encoded">Identity of a tag that is encoded already, in any text form.</param>
/// <param name="Additional">A further tag beside the one the asset has.</param>
/// <param name="Replacement">A tag in place of the one the asset has.</param>
internal sealed record IdentityQuestion(string? Encoded, bool Additional, bool Replacement);

/// <summary>Finds the identity for the next tag of an asset.</summary>
internal sealed class IdentityChooser(TagServiceDbContext database, ReservedIdentities reserved)
{
    private const string SetUp =
        "No identity is named, because no numbering rule is the default one: set one up with PUT /v1/numbering-rules/{id} and the company prefix that GS1 licensed to you, then ask again. A tag that is encoded already can be named with ?identity=.";

    /// <summary>Tags that are on the asset.</summary>
    public Task<List<TagOnAsset>> TagsOnAsync(string assetId, CancellationToken cancellationToken) =>
        database.TagsOn(assetId).ToListAsync(cancellationToken);

    /// <summary>The identity, or the problem with the one that was named.</summary>
    /// <param name="assetId">The asset.</param>
    /// <param name="question">What is asked.</param>
    /// <param name="attached">Tags that are on the asset.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    public async Task<(ChosenIdentity Chosen, ApiProblem? Problem)> ChooseAsync(
        string assetId, IdentityQuestion question, IReadOnlyList<TagOnAsset> attached, CancellationToken cancellationToken)
    {
        if (question.Encoded is { } text)
            return await EncodedAsync(assetId, text, cancellationToken);
        if (attached.Count > 0 && !question.Additional && !question.Replacement)
        {
            return (new(null, "No identity is named, because the asset has a tag: ask again with replacement=true for the tag that takes its place, or with additional=true for a further one."), null);
        }

        var outcome = await reserved.ReserveAsync([assetId], question.Additional, cancellationToken);
        if (!outcome.ByAsset.TryGetValue(assetId, out var row))
            return (new(null, outcome.Refusal is { } refusal && !refusal.StartsWith("No numbering rule", StringComparison.Ordinal) ? $"No identity is named: {refusal}" : SetUp), null);
        var note = attached.Count > 0 && question.Replacement
            ? "Take the old tag off or make it unreadable, and record with endPrevious why it ended."
            : null;
        return (ChosenIdentity.Of(row, note), null);
    }

    private async Task<(ChosenIdentity Chosen, ApiProblem? Problem)> EncodedAsync(string assetId, string text, CancellationToken cancellationToken)
    {
        var reading = IdentityText.Parse(text);
        if (reading is IdentityRefused { Reason: var reason })
        {
            return (ChosenIdentity.None, new(
                ProblemTypes.InvalidRequest, $"The query parameter identity is no identity: {reason.Detail}", [new("identity", reason.Value, reason.Detail, reason.Accepted)]));
        }

        var read = (IdentityRead)reading;
        var holder = await reserved.HolderAsync(read.Key.ToString(), cancellationToken);
        if (holder is { AttachmentId: { } attachment })
        {
            return (ChosenIdentity.None, new(
                ProblemTypes.Conflict,
                $"The identity is on a tag of asset {holder.AssetId} (attachment {attachment}). Take another tag, or end that attachment with PATCH /v1/attachments/{attachment} first."));
        }

        if (holder is not null && holder.AssetId != assetId)
        {
            return (ChosenIdentity.None, new(
                ProblemTypes.Conflict, $"The identity is reserved for a tag of asset {holder.AssetId}. Take another tag."));
        }

        var note = read.Note is { } raw ? $"The tag is taken as encoded already: compare, do not write. Its bits follow no scheme: {raw}" : "The tag is taken as encoded already: compare what you read with this identity, and write only passwords and locks.";
        return (new(IdentityToWrite.Of(read), note), null);
    }
}
