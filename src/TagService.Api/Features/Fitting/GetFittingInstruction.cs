using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Api.Pages.Fitting;
using TagService.Api.Pages.Shared;
using TagService.Domain.Fitting;
using TagService.Storage;
using TagService.Storage.Changes;
using TagService.Storage.Queries;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.Fitting;

/// <summary>GET /v1/assets/{assetId}/fitting-instruction.</summary>
internal static class GetFittingInstruction
{
    private static readonly Representation[] Offered = [Representation.Json, Representation.Html];

    private static readonly ChosenIdentity Retired =
        new(null, "No identity is named, because the register has retired the asset: ask whoever keeps the register before anything is fitted.");

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("/assets/{assetId}/fitting-instruction", Handle)
        .WithName("getFittingInstruction")
        .WithSummary("What to fit on an asset, where and how")
        .WithDescription(
            "In the order of the work: the recommended tag class with its fixing, the place, cautions, preparation, fixing, the identity to write with the "
            + "lock policy, the acceptance check, and what to record with one call. With Accept: text/html or format=html the same as a page to print or "
            + "read on a telephone, with bar codes of the identity (QR code with the Digital Link, GS1 DataMatrix with the element string) and of the "
            + "recording call. The identity is taken from the default numbering rule at the first request and stays the same until an attachment uses it. "
            + "Without a numbering rule the instruction is given all the same and says what to set up. Passwords are never part of it. That no tag class "
            + "suits is an answer too: fitting is null and noneBecause says what would have to change.")
        .Produces<FittingInstructionResponse>(StatusCodes.Status200OK, "application/json", "text/html")
        .WithExamples(static () => FittingExamples.Instruction)
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.NotFound, ProblemTypes.Conflict, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="contexts">Catalogue and measured ranges.</param>
    /// <param name="identities">Identities for tags.</param>
    /// <param name="assetId">The register's key; a slash within it is written %2F.</param>
    /// <param name="identity">Identity of a tag that is encoded already, in any text form: it is checked for being free and shown instead of a new one.</param>
    /// <param name="additional">For a further tag beside the one the asset has.</param>
    /// <param name="replacement">For a tag in place of the one the asset has.</param>
    /// <param name="format">json or html; without it Accept decides.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<IResult> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [FromServices] RecommendationContextSource contexts,
        [FromServices] IdentityChooser identities,
        string assetId,
        [MaxLength(2048)] string? identity,
        [DefaultValue(false)] bool? additional,
        [DefaultValue(false)] bool? replacement,
        [AllowedValues("json", "html", null)] string? format,
        CancellationToken cancellationToken)
    {
        if (Representation.Choose(context.Request, format, Offered, out var wanted) is { } refused)
            return refused;
        if (additional is true && replacement is true)
            return new ApiProblem(ProblemTypes.InvalidRequest, "additional and replacement are both true; a further tag takes no other's place.");
        var stored = await database.FindAssetAsync(assetId.Replace("%2F", "/", StringComparison.OrdinalIgnoreCase), cancellationToken);
        if (stored is null)
            return ApiProblem.NotFound("No asset has this id; /v1/assets lists them all.");

        // A GET, yet it may take a number: that is written down under the caller's name.
        ChangeOrigin.Actor = context.User.Identity?.Name ?? ChangeOrigin.UnnamedCaller;
        var asset = stored.Asset;
        var plan = FittingPlan.For(asset.Record, contexts.Current);
        var attached = await identities.TagsOnAsync(asset.AssetId, cancellationToken);
        var (chosen, problem) = plan is NoFitting && identity is null ? (ChosenIdentity.None, null)
            : asset.RetiredAt is not null && identity is null ? (Retired, null)
            : await identities.ChooseAsync(asset.AssetId, new(identity, additional ?? false, replacement ?? false), attached, cancellationToken);
        if (problem is not null)
            return problem;
        var answer = FittingInstructionMaker.Make(asset, plan, attached, chosen, Address(context.Request, asset.AssetId));
        if (wanted == Representation.Html)
        {
            return new PageResult<InstructionPage>(new Dictionary<string, object?>
            {
                [nameof(InstructionPage.Instruction)] = answer,
                [nameof(InstructionPage.Codes)] = InstructionCodes.Of(chosen.Identity?.Key, answer.Recording),
            });
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        context.Response.Headers.Vary = "Accept";
        return TypedResults.Ok(answer);
    }

    // Where this request came to is where the fitter's reader can send the result.
    private static string Address(HttpRequest request, string assetId) =>
        $"{request.Scheme}://{request.Host}{request.PathBase}/v1/assets/{Uri.EscapeDataString(assetId)}/attachments";
}
