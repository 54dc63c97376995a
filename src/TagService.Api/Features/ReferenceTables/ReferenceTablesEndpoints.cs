using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;

namespace TagService.Api.Features.ReferenceTables;

/// <summary>The reference tables, each row with its source.</summary>
public static class ReferenceTablesEndpoints
{
    /// <summary>Maps the area.</summary>
    public static void MapReferenceTables(this IEndpointRouteBuilder app)
    {
        var group = app.MapGroup("/v1").WithTags(ApiTags.ReferenceTables);
        group.MapTable(
            "/radio-regions", "listRadioRegions", "Radio regions and their power limits",
            "UHF bands open to tag readers by region, with limit, rule and how sure we are of it. To inform only: the local regulator decides.",
            () => RadioTables.Regions);
        group.MapTable(
            "/reader-kinds", "listReaderKinds", "Kinds of reader with planning defaults",
            "Radiated power, antenna gain and sensitivity assumed when a record does not say; your own figures override them.",
            () => RadioTables.Readers);
        group.MapTable(
            "/site-models", "listSiteModels", "Path models by kind of place",
            "How the signal falls with distance in each kind of place, and how much it varies from look to look.",
            () => RadioTables.Sites);
        group.MapTable(
            "/materials", "listMaterials", "Materials as tags meet them",
            "What each material does to an antenna and how well adhesives take to it, with the words by which a record may name it.",
            () => Materials.Table);
        group.MapTable(
            "/coatings", "listCoatings", "Coatings and what they do to adhesives",
            "What covers a surface, with the words by which a record may name it.",
            () => Coatings.Table);
        group.MapTable(
            "/asset-profiles", "listAssetProfiles", "What is typical of each kind of asset",
            "Values that fill the gaps of a thin record, other plausible values with their shares, and the words that point to the profile.",
            () => AssetProfiles.Table);
        group.MapTable(
            "/settings", "listSettings", "What each kind of surroundings brings with it",
            "Assumptions on temperature, water, knocks, sun and handling where a record does not say.",
            () => Settings.Table);
        group.MapTable(
            "/attachment-methods", "listAttachmentMethods", "Ways of fixing a tag",
            "Limits, labour and steps of each way of fixing. Drilling, riveting and welding need the consent of the asset's owner or engineer.",
            () => AttachmentMethods.Table);
    }
}
