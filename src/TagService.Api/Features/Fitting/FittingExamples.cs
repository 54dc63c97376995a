using TagService.Domain.Fitting;
using TagService.Domain.Identity.Text;
using TagService.Domain.Recommendations;
using TagService.Storage.Fitting;
using TagService.Storage.Bulk;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Fitting;

/// <summary>Examples for the OpenAPI document, computed so that they cannot go stale. Asset invented; identity: GS1 EPC Tag Data Standard 2.3, annex E.</summary>
internal static class FittingExamples
{
    private static readonly AssetRow Ladder = new()
    {
        AssetId = "EW-LAD-00007",
        LocationName = "Workshop",
        Source = AssetSources.Push,
        FirstSeenAt = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero),
        UpdatedAt = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero),
        Record = new() { AssetId = "EW-LAD-00007", Category = "Ladder", Description = "invented demo asset" },
    };

    private static readonly PlannedFitting Plan = (PlannedFitting)FittingPlan.For(Ladder.Record, RecommendationContext.BuiltIn);

    public static FittingInstructionResponse Instruction { get; } = FittingInstructionMaker.Make(
        Ladder, Plan, [],
        new(IdentityToWrite.Of((IdentityRead)IdentityText.Parse("urn:epc:tag:giai-96:0.9521141.5678")), null, new(2026, 5, 4, 9, 0, 0, TimeSpan.Zero), "assets"),
        "https://tagservice.example/v1/assets/EW-LAD-00007/attachments");

    public static FittingWorklistResponse Worklist { get; } =
        new Worklist([(Ladder, Plan)], new Dictionary<string, ReservedIdentityRow>(), null, KnownPlaces.None, null).ToResponse(reserve: false);
}
