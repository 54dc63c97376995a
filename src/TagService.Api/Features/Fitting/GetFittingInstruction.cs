using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.Problems;
using TagService.Api.Pages.Fitting;
using TagService.Api.Pages.Shared;
using TagService.Domain.Fitting;
using TagService.Storage;
using TagService.Storage.Queries;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Fitting;

/// <summary>GET /v1/assets/{assetId}/fitting-instruction.</summary>
internal static class GetFittingInstruction
{
    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/assets/{assetId}/fitting-instruction", Handle)
        .WithName("getFittingInstruction")
        .WithSummary("What to fit on an asset, where and how")
        .WithDescription("d")
        .Produces<FittingInstructionResponse>(StatusCodes.Status200OK, "application/json", "text/html")
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="contexts">Catalogue and measured ranges.</param>
    /// <param name="assetId">The register's key; a slash within it is written %2F.</param>
    /// <param name="identity">Identity of a tag that is encoded already, in any text form.</param>
    /// <param name="format">json or html; without it Accept decides.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<IResult> Handle(
        HttpContext context, [FromServices] TagServiceDbContext database, [FromServices] RecommendationContextSource contexts,
        string assetId, string? identity, string? format, CancellationToken cancellationToken)
    {
        if (Representation.Choose(context.Request, format, [Representation.Json, Representation.Html], out var wanted) is { } refused)
            return refused;
        var stored = await database.FindAssetAsync(assetId.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase), cancellationToken);
        if (stored is null)
            return ApiProblem.NotFound("No asset has this id; /v1/assets lists them all.");
        var plan = FittingPlan.For(stored.Asset.Record, contexts.Current);
        IdentityToWrite? toWrite = identity is null ? null
            : IdentityToWrite.Of((Domain.Identity.Text.IdentityRead)Domain.Identity.Text.IdentityText.Parse(identity));
        var address = $"{context.Request.Scheme}://{context.Request.Host}{context.Request.PathBase}/v1/assets/{Uri.EscapeDataString(stored.Asset.AssetId)}/attachments";
        var answer = FittingInstructionMaker.Make(stored.Asset, plan, [], toWrite, null, address);
        return wanted == Representation.Html
            ? new PageResult<InstructionPage>(new Dictionary<string, object?>
            {
                [nameof(InstructionPage.Instruction)] = answer,
                [nameof(InstructionPage.Codes)] = InstructionCodes.Of(
                    toWrite is null ? null : BarCodeTexts.Qr(toWrite.Key), toWrite is null ? null : BarCodeTexts.Gs1DataMatrix(toWrite.Key), answer.Recording),
            })
            : TypedResults.Ok(answer);
    }
}
