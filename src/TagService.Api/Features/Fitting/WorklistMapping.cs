using System.Globalization;
using TagService.Api.Http;
using TagService.Domain.Fitting;
using TagService.Domain.Suitability;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Fitting;

/// <summary>A worklist as JSON and as CSV.</summary>
internal static class WorklistMapping
{
    private static readonly string[] Header =
    [
        "assetId", "category", "locationName", "locationPath", "tagClassId", "tagClassName", "attachmentMethodId", "attachmentMethodName", "minutes",
        "identity", "epcHex", "cautionIds", "noneBecause",
    ];

    public static FittingWorklistResponse ToResponse(this Worklist list, bool reserve)
    {
        var planned = list.Plans.Where(p => p.Plan is PlannedFitting).Select(p => (PlannedFitting)p.Plan).ToList();
        var cautions = planned.SelectMany(p => p.Answer.Cautions).Select(c => c.Id).ToHashSet(StringComparer.Ordinal);
        return new(
            [.. list.Plans.Where(p => p.Plan is PlannedFitting).Select(p => list.Item(p.Asset, (PlannedFitting)p.Plan))],
            [.. list.Plans.Where(p => p.Plan is NoFitting).Select(p => Refused(p.Asset, (NoFitting)p.Plan))],
            WorklistTotals.Of(planned).ToResponse(),
            [.. Cautions.All.Where(c => cautions.Contains(c.Id)).Select(c => c.ToResponse())],
            reserve ? list.Refusal : null,
            list.Next is { } next ? WorklistQuery.Cursor(next) : null);
    }

    public static string ToCsv(this FittingWorklistResponse list)
    {
        var csv = new CsvText();
        csv.Line(Header);
        foreach (var i in list.Items)
        {
            csv.Line(
                i.AssetId, i.Category, i.LocationName, i.LocationPath is null ? null : string.Join(" / ", i.LocationPath), i.TagClassId, i.TagClassName,
                i.AttachmentMethodId, i.AttachmentMethodName, i.Minutes.ToString(CultureInfo.InvariantCulture), i.Identity, i.EpcHex, string.Join(' ', i.CautionIds), null);
        }

        foreach (var r in list.WithoutSuitableClass)
            csv.Line(r.AssetId, r.Category, r.LocationName, null, null, null, null, null, null, null, null, null, r.Reason);
        return csv.ToString();
    }

    private static WorklistItemResponse Item(this Worklist list, AssetRow asset, PlannedFitting plan)
    {
        var place = list.Places.Find(asset.LocationName);
        var identity = list.Reserved.GetValueOrDefault(asset.AssetId);
        return new(
            asset.AssetId, asset.Record.Category, asset.LocationName, place, place is null ? null : list.Places.PathOf(place),
            plan.TagClass.Id, plan.TagClass.Name, plan.Method.Id, plan.Method.Name, Math.Round(plan.Choice.Minutes, 1),
            identity?.Identity, identity?.EpcHex, [.. plan.Answer.Cautions.Select(c => c.Id)], Instruction(asset));
    }

    private static WorklistRefusedResponse Refused(AssetRow asset, NoFitting none) => new(
        asset.AssetId, asset.Record.Category, asset.LocationName, none.Because.Summary, none.Because.Changes is [var first, ..] ? first.Sentence : null, Instruction(asset));

    private static WorklistTotalsResponse ToResponse(this WorklistTotals totals) => new(
        totals.Assets, Math.Round(totals.Minutes, 1),
        [.. totals.Tags.Select(t => new WorklistTagsResponse(t.TagClassId, t.TagClassName, t.ToFit, t.Spares, t.Tags))],
        [.. totals.Kit.Select(k => new WorklistKitResponse(
            k.Item.Id, k.Item.Name, k.Item.Kind, k.Quantity > 0 ? Math.Round(k.Quantity, 2) : null, k.Quantity > 0 ? k.Item.Unit : null, k.ForAssets))]);

    private static string Instruction(AssetRow asset) => $"/v1/assets/{Uri.EscapeDataString(asset.AssetId)}/fitting-instruction";
}
