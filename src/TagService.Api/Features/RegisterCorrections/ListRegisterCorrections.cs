using System.ComponentModel;
using System.ComponentModel.DataAnnotations;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using TagService.Api.Http;
using TagService.Api.Http.Json;
using TagService.Api.Http.OpenApi;
using TagService.Api.Http.Problems;
using TagService.Domain.Registers;
using TagService.Intake.Registers;
using TagService.Storage;
using TagService.Storage.Bulk;
using TagService.Storage.Corrections;

namespace TagService.Api.Features.RegisterCorrections;

/// <summary>GET /v1/register-corrections.</summary>
internal static class ListRegisterCorrections
{
    private const int MaxKindLength = 20;
    private const int MostNames = 40;

    private static readonly Representation[] Offered = [Representation.Json, Representation.Csv];

    private static readonly IReadOnlyList<string> Kinds = JsonShape.Of(typeof(CorrectionKind)).Choices;

    public static void Map(IEndpointRouteBuilder group) => group.MapGet("", Handle)
        .WithName("listRegisterCorrections")
        .WithSummary("What registers should be told about tags")
        .WithDescription(
            "Assets in service of which the register's tag column and the recorded attachments disagree, one correction an asset, in ordinal order of the assets. For assets that "
            + "are pushed and for sources with tagAuthority attachments: attach, replace, end, and conflict where nothing is on the asset. For sources with tagAuthority register, "
            + "whose column is recorded as attachments by itself: only what could not be recorded (conflict), and end where somebody ended the attachment afterwards. unreadable-tag "
            + "for both. A correction is over by itself as soon as the register says the same. With since, only where the asset, or an attachment of it or of the tag named, changed "
            + "at or after that time. With Accept: text/csv or format=csv as CSV (RFC 4180; a field that begins like a formula gets an apostrophe before it). Follow the Link header "
            + "with rel=\"next\" (RFC 8288) until there is none.")
        .Produces<RegisterCorrectionPageResponse>(StatusCodes.Status200OK, "application/json", "text/csv")
        .WithExamples(static () => new RegisterCorrectionPageResponse([RegisterCorrectionMapping.Example], null))
        .WithProblems(ProblemTypes.InvalidRequest, ProblemTypes.Unavailable);

    /// <param name="context">The request.</param>
    /// <param name="database">The database.</param>
    /// <param name="corrections">Finds corrections.</param>
    /// <param name="source">Only assets of this register source, or push.</param>
    /// <param name="kind">Only corrections of this kind: attach, replace, end, unreadable-tag or conflict.</param>
    /// <param name="since">Only where something changed at or after this time, RFC 3339 with offset; a + in it is written %2B.</param>
    /// <param name="after">Asset id behind which the page begins; it need not exist.</param>
    /// <param name="limit">Most corrections on the page.</param>
    /// <param name="format">json or csv; without it Accept decides.</param>
    /// <param name="cancellationToken">Ends with the request.</param>
    private static async Task<IResult> Handle(
        HttpContext context,
        [FromServices] TagServiceDbContext database,
        [FromServices] Storage.Corrections.RegisterCorrections corrections,
        [MaxLength(ItemId.MaxLength)] string? source,
        [MaxLength(MaxKindLength)] string? kind,
        DateTimeOffset? since,
        [MaxLength(AssetContent.MaxAssetIdLength)] string? after,
        [Range(1, Paging.MaxLimit), DefaultValue(Paging.DefaultLimit)] int? limit,
        [AllowedValues("json", "csv", null)] string? format,
        CancellationToken cancellationToken)
    {
        var refused = Representation.Choose(context.Request, format, Offered, out var wanted) ?? Paging.Refusal(limit)
            ?? ItemId.Refusal("source", source, ItemId.MaxLength) ?? ItemId.Refusal("after", after, AssetContent.MaxAssetIdLength);
        if (refused is not null)
            return refused;
        if (kind is not null && !Kinds.Contains(kind))
            return new ApiProblem(ProblemTypes.InvalidRequest, $"kind is {JsonText.Clip(kind)}; accepted: {string.Join(", ", Kinds)}.");
        var (told, followed) = await SourcesAsync(database, cancellationToken);
        if (source is not null && !told.Contains(source) && !followed.Contains(source))
        {
            return new ApiProblem(
                ProblemTypes.InvalidRequest, $"source is {JsonText.Clip(source)}, and no register source is called so; accepted: {string.Join(", ", told.Concat(followed).Take(MostNames))}.");
        }

        var most = limit ?? Paging.DefaultLimit;
        var filter = new CorrectionFilter
        {
            Told = [.. told.Where(s => source is null || s == source)], Followed = [.. followed.Where(s => source is null || s == source)], Since = since,
            Kind = kind is null ? null : Enum.GetValues<CorrectionKind>().First(k => RegisterCorrectionMapping.KindText(k) == kind),
        };
        var found = await corrections.PageAsync(filter, after ?? "", most + 1, cancellationToken);
        var (items, next) = Paging.Page(context, found, most, "after", c => c.AssetId);
        context.Response.Headers.Vary = "Accept";
        RegisterCorrectionResponse[] page = [.. items.Select(c => c.ToResponse())];
        return wanted == Representation.Csv
            ? TypedResults.Text(RegisterCorrectionMapping.ToCsv(page), "text/csv; header=present", Encoding.UTF8)
            : TypedResults.Ok(new RegisterCorrectionPageResponse(page, next));
    }

    private static async Task<(List<string> Told, List<string> Followed)> SourcesAsync(TagServiceDbContext database, CancellationToken cancellationToken)
    {
        var sources = await database.RegisterSources.AsNoTracking().OrderBy(s => s.Name).Select(s => new { s.Name, s.Settings }).ToListAsync(cancellationToken);
        var byAuthority = sources.ToLookup(s => RegisterSourceJson.Read(s.Settings).TagAuthority, s => s.Name);
        return ([AssetSources.Push, .. byAuthority[TagAuthority.Attachments]], [.. byAuthority[TagAuthority.Register]]);
    }
}
