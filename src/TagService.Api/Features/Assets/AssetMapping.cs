using System.Globalization;
using Microsoft.Net.Http.Headers;
using TagService.Api.Features.Recommendations;
using TagService.Storage.Queries;
using TagService.Storage.Tables;

namespace TagService.Api.Features.Assets;

/// <summary>From the tables to the wire.</summary>
internal static class AssetMapping
{
    public static AssetResponse Example { get; } = new(
        "EW-PMC-00001", "Harquith Water Treatment Works / Pump hall", new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero),
        new() { AssetId = "EW-PMC-00001", Category = "Centrifugal pump", Attributes = new Dictionary<string, string> { ["remark"] = "invented demo asset" } },
        null);

    public static AssetResponse ToResponse(this StoredAsset stored) => new(
        stored.Asset.AssetId, stored.Asset.LocationName, stored.Asset.UpdatedAt, stored.Asset.Record,
        stored.Recommendation?.ToResponse(stored.RecommendationIsCurrent));

    /// <summary>Changes with the asset's row and with what is stored for it: the answer shows both.</summary>
    public static EntityTagHeaderValue EntityTag(this StoredAsset stored) => new(string.Create(
        CultureInfo.InvariantCulture, $"\"{stored.Asset.Version:x}-{stored.Recommendation?.ComputedAt.UtcTicks ?? 0:x}\""));

    private static StoredRecommendationResponse ToResponse(this AssetRecommendationRow row, bool isCurrent) => new(
        row.TagClassId, row.AttachmentMethodId,
        row is { P10M: { } p10, P50M: { } p50, P90M: { } p90 } ? new ExpectedRangeResponse(p10, p50, p90) : null,
        row is { LifetimeCostPresentValue: { } amount, LifetimeCostCurrency: { } currency } ? new(amount, currency) : null,
        row.NoneBecause, isCurrent, row.EngineVersion, row.CatalogueVersion, row.ComputedAt);
}
