using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>One asset of the mirror with what the worker stored for it.</summary>
/// <param name="Asset">The asset.</param>
/// <param name="Recommendation">The stored recommendation; null until the worker has been there.</param>
public sealed record StoredAsset(AssetRow Asset, AssetRecommendationRow? Recommendation)
{
    /// <summary>Was the recommendation computed from the record as it is now?</summary>
    public bool RecommendationIsCurrent => Recommendation?.RecordHash == Asset.RecordHash;
}
