using Microsoft.EntityFrameworkCore;
using TagService.Api.Http.Json;
using TagService.Api.Http.Problems;
using TagService.Storage;
using TagService.Storage.Queries;

namespace TagService.Api.Features.Attachments;

/// <summary>The batch a tag came from has to have been entered: a mistyped one would hide its tags from every question of quality.</summary>
internal static class TagBatchNames
{
    private const string Member = "tagBatchId";

    /// <summary>The problem with a batch id, or null. The batch then stays until the transaction ends.</summary>
    /// <param name="database">A context within a transaction.</param>
    /// <param name="id">The id; null is fine.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    public static async Task<ApiProblem?> RefusalAsync(TagServiceDbContext database, string? id, CancellationToken cancellationToken) =>
        id is null || await database.HoldTagBatchAsync(id, cancellationToken)
            ? null
            : Unknown(id, await database.TagBatches.LatestIds().ToListAsync(cancellationToken));

    /// <summary>The problem with an id that no batch has.</summary>
    /// <param name="id">The id.</param>
    /// <param name="known">Ids of batches.</param>
    public static ApiProblem Unknown(string id, IReadOnlyCollection<string> known)
    {
        var near = NearestName.Of(id, known);
        var accepted = $"an id of /v1/tag-batches{(near is null ? "" : $", perhaps {near}")}; or enter the batch first with PUT /v1/tag-batches/{Uri.EscapeDataString(id)}; or leave {Member} out and add it later with PATCH";
        return new(
            ProblemTypes.InvalidFields, $"No tag batch has the id {JsonText.Clip(id)}.",
            [new($"#/{Member}", JsonText.Clip(id), near is null ? "No tag batch has this id." : $"No tag batch has this id; {near} is the nearest.", accepted)]);
    }
}
