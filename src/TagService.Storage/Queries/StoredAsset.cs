using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>One asset of the mirror with what the worker stored for it.</summary>
/// <param name="Asset">The asset.</param>
/// <param name="Recommendation">The stored recommendation; null until the worker has been there.</param>
public sealed record StoredAsset(AssetRow Asset, AssetRecommendationRow? Recommendation)
{
    /// <summary>
    /// Does the recommendation rest on what the engine reads of the record as it is now? By the key, or by the whole record where
    /// the key has not been worked out.
    /// </summary>
    public bool RecommendationIsCurrent => Recommendation is { } stored
        && ((Asset.InputKey.Length > 0 && stored.InputKey == Asset.InputKey) || stored.RecordHash == Asset.RecordHash);
}
