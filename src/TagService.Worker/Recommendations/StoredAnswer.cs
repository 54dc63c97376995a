using TagService.Domain.Recommendations;
using TagService.Storage.Claims;
using TagService.Storage.Tables;

namespace TagService.Worker.Recommendations;

/// <summary>From the engine's answer to the row that is kept of it.</summary>
internal static class StoredAnswer
{
    public static AssetRecommendationRow Of(ClaimedAsset asset, RecommendationAnswer answer, string version, DateTimeOffset now)
    {
        var choice = answer.Recommendation;
        return new()
        {
            AssetId = asset.AssetId,
            TagClassId = choice?.TagClass.Id,
            AttachmentMethodId = choice?.Method.Id,
            P10M = choice?.Range.P10.Value,
            P50M = choice?.Range.P50.Value,
            P90M = choice?.Range.P90.Value,
            NoneBecause = choice is null ? answer.NoneBecause?.Summary ?? "No tag class suits." : null,
            LifetimeCostPresentValue = choice is null ? null : decimal.Round((decimal)choice.Cost.PresentValue, 2),
            LifetimeCostCurrency = choice?.Cost.Currency,
            EngineVersion = RecommendationEngine.Version,
            CatalogueVersion = version,
            RecordHash = asset.RecordHash,
            ComputedAt = now,
        };
    }
}
