using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Storage.Idempotency;

namespace TagService.Api.Features.Assets;

/// <summary>PUT /v1/assets/{assetId}.</summary>
internal static class PutAsset
{
    // Invented.
    internal static AssetRequest Example { get; } = new()
    {
        Category = "centrifugal pump", Surface = new() { Material = "cast iron", Coating = "paint" }, Service = new() { LifeYears = 12 },
        LocationName = "Harquith Water Treatment Works / Pump hall", RegisterTag = "4711-0815",
    };

    public static void Map(IEndpointRouteBuilder group) => group.MapPut("/{assetId}", Handle)
        .WithName("putAsset")
        .WithSummary("Push one asset as its register has it")
        .WithDescription(
            "The whole record: what is left out is gone. 201 when the asset is new, 200 otherwise; sending what is there already changes nothing, not even "
            + "the ETag. Every change is kept in the asset's history. With retired the asset is out of service and keeps its history and attachments; a retired asset sent "
            + "without it is in service again, and a notice says so. The register's own fields at the top level become attributes, each with a notice; Prefer: handling=strict "
            + "refuses them. Send If-Match with the ETag you have seen, or If-None-Match: * to create only; of the ETag's two parts only the first, the asset's, is compared. "
            + "A new recommendation is worked out in the background when something recommendations rest on has changed, and only then.")
        .Accepts<AssetRequest>("application/json")
        .WithExamples(static () => Example, static () => AssetMapping.Example)
        .WithJsonBodyProblems(
            ProblemTypes.InvalidRequest, ProblemTypes.ContradictoryFields, ProblemTypes.NotFound, ProblemTypes.PreconditionFailed, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="work">The transaction.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="assetId">The register's key, 1 to 200 characters; a slash within it is written %2F.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<Results<Ok<AssetResponse>, Created<AssetResponse>, ApiProblem>> Handle(
        HttpContext context, [FromServices] TransactedWork work, [FromServices] TimeProvider clock, string assetId, CancellationToken cancellationToken)
    {
        var key = AssetReader.KeyOf(assetId);
        if (AssetReader.OfKey(key) is { } refused)
            return refused;
        var body = await JsonBody.ReadAsync<AssetRequest>(context, AssetReader.ReadOptions, cancellationToken);
        if (!body.IsRead)
            return body.Problem;
        var draft = AssetReader.Read(body.Value, key, clock.GetUtcNow());
        return draft.Problem is { } problem ? problem : await AssetChange.RunAsync(context, work, clock, key, _ => draft, cancellationToken);
    }
}
