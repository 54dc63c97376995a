namespace TagService.Storage.Tables;

/// <summary>
/// An asset whose recommendation is missing or rests on another record. Whoever changes what the engine reads of an asset adds
/// it in the same transaction; whoever stores the answer, holding the asset, takes it away.
/// </summary>
public sealed class RecommendationDueRow
{
    /// <summary>The asset.</summary>
    public required string AssetId { get; init; }
}
