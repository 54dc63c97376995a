using TagService.Domain.Fitting;
using TagService.Domain.Recommendations;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Fitting;

/// <summary>Puts the instruction together from the plan, what is on the asset and the identity.</summary>
internal static class FittingInstructionMaker
{
    public static FittingInstructionResponse Make(
        AssetRow asset, FittingPlan plan, IReadOnlyList<AttachedTagResponse> attached, IdentityToWrite? identity, string? note, string address)
    {
        var fitting = plan as PlannedFitting;
        return new(
            asset.AssetId, asset.Record.Category, asset.Record.Description, asset.LocationName,
            fitting?.ToResponse(), (plan as NoFitting)?.Because.ToResponse(), attached,
            identity?.ToResponse(fitting, null, null), note,
            [.. plan.Answer.Cautions.Select(c => c.ToResponse())],
            [.. plan.ToConfirm.Select(a => a.ToResponse())],
            fitting is null ? null : Recording(fitting, identity, address),
            RecommendationEngine.Version, plan.Answer.CatalogueVersion);
    }

    private static FittingRecordingResponse Recording(PlannedFitting fitting, IdentityToWrite? identity, string address)
    {
        var body = new Dictionary<string, string>(StringComparer.Ordinal);
        if (identity is not null)
            body["identity"] = identity.Key.ToString();
        body["tagClassId"] = fitting.TagClass.Id;
        body["methodId"] = fitting.Method.Id;
        return new("POST", address, body, [.. RecordItems.All.Select(i => i.ToResponse())]);
    }
}
