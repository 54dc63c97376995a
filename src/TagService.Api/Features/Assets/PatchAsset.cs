using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Idempotency;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Assets;

/// <summary>PATCH /v1/assets/{assetId}.</summary>
internal static class PatchAsset
{
    // Invented.
    private static readonly AssetRequest Example = new() { LocationName = "Harquith Water Treatment Works / Store", Retired = new() { Reason = "scrapped" } };

    public static void Map(IEndpointRouteBuilder group) => group.MapPatch("/{assetId}", Handle)
        .WithName("patchAsset")
        .WithSummary("Change some fields of an asset")
        .WithDescription(
            "A merge patch (RFC 7396) on the asset in the form in which PUT takes it: members sent replace those there are, null deletes, objects are merged, lists replaced "
            + "as a whole. The result is checked as a whole, as PUT would check it: contradictions between what is sent and what is there are 422. retired with {} retires "
            + "the asset now, retired with null brings it back, with a notice. The register's own fields are named at the top level or under attributes. If-Match is "
            + "honoured where sent: of the ETag's two parts only the first, the asset's, is compared.")
        .Accepts<AssetRequest>(JsonMergePatch.MediaType, "application/json")
        .WithExamples(static () => Example, static () => AssetMapping.Example)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="assetId">The register's key; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AssetResponse>, Created<AssetResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, [FromServices] TimeProvider clock, string assetId, CancellationToken cancellationToken)
    {
        var key = AssetReader.KeyOf(assetId);
        if (AssetReader.OfKey(key) is { } refused)
            return refused;
        var body = await JsonBody.ReadAsync<Dictionary<string, JsonElement>>(context, null, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var strict = JsonRequest.PrefersStrict(context);
        return await AssetChange.RunAsync(
            context, work, clock, key, row => Patched(row, key, body.Value, strict, clock.GetUtcNow()), cancellationToken);
    }

    private static AssetDraft Patched(AssetRow? row, string key, Dictionary<string, JsonElement> patch, bool strict, DateTimeOffset now)
    {
        if (row is null)
            return ApiProblem.NotFound("No asset has this id; PUT creates one.");
        var json = AssetPatch.Apply(row, patch, strict, out var ownFields);
        var merged = JsonBody.Read<AssetRequest>(json, AssetReader.ReadOptions with { RefuseOtherMembers = strict });
        if (!merged.IsRead)
            return merged.Problem;
        var draft = AssetReader.Read(merged.Value, key, now);
        return draft with { OwnFields = AssetReader.OwnFields(ownFields) };
    }
}
