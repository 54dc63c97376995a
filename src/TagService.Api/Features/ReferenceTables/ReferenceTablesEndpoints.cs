using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using TagService.Api.Http.OpenApi;
using TagService.Domain.Radio;

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
    }
}
