using System.Text.Json;
using TagService.Domain.Fitting;
using TagService.Domain.Recommendations;
using TagService.Storage.Fitting;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Fitting;

/// <summary>Puts the instruction together from the plan, what is on the asset and the identity.</summary>
internal static class FittingInstructionMaker
{
    /// <summary>The instruction.</summary>
    /// <param name="asset">The asset.</param>
    /// <param name="plan">What to fit.</param>
    /// <param name="attached">Tags that are on the asset.</param>
    /// <param name="chosen">The identity.</param>
    /// <param name="address">Address of the recording call.</param>
    public static FittingInstructionResponse Make(
        AssetRow asset, FittingPlan plan, IReadOnlyList<TagOnAsset> attached, ChosenIdentity chosen, string address)
    {
        var fitting = plan as PlannedFitting;
        return new(
            asset.AssetId, asset.Record.Category, asset.Record.Description, asset.LocationName,
            fitting?.ToResponse(), (plan as NoFitting)?.Because.ToResponse(),
            [.. attached.Select(t => new AttachedTagResponse(t.AttachmentId, t.Identity, t.TagClassId))],
            chosen.Identity?.ToResponse(fitting, chosen.ReservedAt, chosen.NumberingRuleId), chosen.Note,
            [.. plan.Answer.Cautions.Select(c => c.ToResponse())],
            [.. plan.ToConfirm.Select(a => a.ToResponse())],
            fitting is null ? null : Recording(fitting, chosen.Identity, address),
            RecommendationEngine.Version, plan.Answer.CatalogueVersion);
    }

    // Names of the members are those of the recording call (StartAttachmentRequest).
    private static FittingRecordingResponse Recording(PlannedFitting fitting, IdentityToWrite? identity, string address)
    {
        var body = new Dictionary<string, string>(StringComparer.Ordinal);
        if (identity is not null)
            body["identity"] = identity.Key.ToString();
        body["tagClassId"] = fitting.TagClass.Id;
        body["attachmentMethod"] = fitting.Method.Id;
        // What the acceptance check was worked out for: with it and the power that was set, the result counts as a measured range.
        var reading = fitting.Asset.Reading;
        (body["checkRegion"], body["checkSite"]) = (reading.Region.Id, reading.Site.Id);
        body["checkReaderKind"] = JsonNamingPolicy.KebabCaseLower.ConvertName(reading.Reader.Kind.ToString());
        return new("POST", address, body, [.. RecordItems.All.Select(i => i.ToResponse())]);
    }
}
