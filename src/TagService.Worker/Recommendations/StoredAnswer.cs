using TagService.Domain.Recommendations;
using TagService.Storage.Claims;
using TagService.Storage.Tables;

namespace TagService.Worker.Recommendations;

/// <summary>From the engine's answer to the row that is kept of it.</summary>
internal static class StoredAnswer
{
    /// <summary>
    /// What an answer on a material rests on. An answer without questions, such as the stored ones, looks up measured ranges of every class
    /// on the asset's own material and on no other (SceneSet), so findings elsewhere leave it good; any class measured on that material may
    /// have become the better choice, so all of them count.
    /// </summary>
    public static AnswerBasis BasisOf(RecommendationContext context, string materialId) =>
        new(RecommendationEngine.Version, context.AnswerVersion, materialId, context.Calibrations.VersionOn(materialId));

    public static AssetRecommendationRow Of(ClaimedAsset asset, RecommendationAnswer answer, RecommendationContext context, DateTimeOffset now)
    {
        var basis = BasisOf(context, answer.MaterialId);
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
            EngineVersion = basis.EngineVersion,
            CatalogueVersion = basis.CatalogueVersion,
            MaterialId = basis.MaterialId,
            MeasuredVersion = basis.MeasuredVersion,
            InputKey = asset.InputKey,
            RecordHash = asset.RecordHash,
            ComputedAt = now,
        };
    }
}
