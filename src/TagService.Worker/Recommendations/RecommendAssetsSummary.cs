namespace TagService.Worker.Recommendations;

/// <summary>What one pass did.</summary>
/// <param name="Assets">Assets answered.</param>
/// <param name="WithoutClass">Those for which no tag class suits.</param>
/// <param name="Failures">Assets on which the engine failed.</param>
internal sealed record RecommendAssetsSummary(int Assets, int WithoutClass, IReadOnlyList<EngineFailure> Failures)
{
    public RecommendAssetsSummary Plus(RecommendAssetsSummary other) =>
        new(Assets + other.Assets, WithoutClass + other.WithoutClass, [.. Failures, .. other.Failures]);
}

/// <summary>An asset on which the engine failed: a defect of ours.</summary>
internal sealed record EngineFailure(string AssetId, Exception Exception);
