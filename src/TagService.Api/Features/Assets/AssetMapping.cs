using TagService.Api.Features.Recommendations;
using TagService.Storage.Bulk;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Assets;

/// <summary>From the tables to the wire.</summary>
internal static class AssetMapping
{
    public static AssetResponse Example { get; } = new(
        "EW-PMC-00001", "Harquith Water Treatment Works / Pump hall", new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero),
        new() { AssetId = "EW-PMC-00001", Category = "Centrifugal pump", Attributes = new Dictionary<string, string> { ["remark"] = "invented demo asset" } },
        null)
    {
        RegisterTag = "4711-0815", Source = AssetSources.Push, FirstSeenAt = new(2026, 4, 1, 8, 0, 0, TimeSpan.Zero),
    };

    public static AssetResponse ToResponse(this StoredAsset stored) => new(
        stored.Asset.AssetId, stored.Asset.LocationName, stored.Asset.UpdatedAt, stored.Asset.Record,
        stored.Recommendation?.ToResponse(stored.RecommendationIsCurrent))
    {
        RegisterTag = stored.Asset.RegisterTag,
        Source = stored.Asset.Source,
        Retired = stored.Asset.RetiredAt is { } at ? new(at, stored.Asset.RetiredReason) : null,
        FirstSeenAt = stored.Asset.FirstSeenAt,
    };

    /// <summary>What to say when an asset was retired and is not any more.</summary>
    public static NoticeResponse[] BroughtBack(DateTimeOffset? wasRetiredAt, DateTimeOffset? retiredAt) => wasRetiredAt is { } at && retiredAt is null
        ? [BroughtBack(FormattableString.Invariant($"The asset was retired at {at:O}; sent without retired it is in service again."))]
        : [];

    public static NoticeResponse BroughtBack(string text) => new("brought-back", "#/retired", text);

    private static StoredRecommendationResponse ToResponse(this AssetRecommendationRow row, bool isCurrent) => new(
        row.TagClassId, row.AttachmentMethodId,
        row is { P10M: { } p10, P50M: { } p50, P90M: { } p90 } ? new ExpectedRangeResponse(p10, p50, p90) : null,
        row is { LifetimeCostPresentValue: { } amount, LifetimeCostCurrency: { } currency } ? new(amount, currency) : null,
        row.NoneBecause, isCurrent, row.EngineVersion, row.CatalogueVersion, row.ComputedAt)
    {
        MaterialId = row.MaterialId is "" ? null : row.MaterialId,
        MeasuredVersion = row.MeasuredVersion is "" ? null : row.MeasuredVersion,
    };
}
