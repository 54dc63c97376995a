namespace TagService.Storage.Bulk;

/// <summary>An asset ready to be compared and sent.</summary>
internal readonly record struct PreparedAsset(AssetToLoad Asset, string AssetId, string RecordJson, byte[] Hash)
{
    /// <summary>Checks, writes and hashes.</summary>
    /// <exception cref="ArgumentException">One cannot be stored.</exception>
    public static PreparedAsset[] All(IReadOnlyList<AssetToLoad> assets, string source)
    {
        if (source.Length is 0 or > AssetContent.MaxTextLength || source.Contains('\0', StringComparison.Ordinal))
            throw new ArgumentException($"The name of a source has 1 to {AssetContent.MaxTextLength} characters.", nameof(source));
        var prepared = new PreparedAsset[assets.Count];
        for (var i = 0; i < prepared.Length; i++)
        {
            var json = AssetContent.JsonOf(assets[i]);
            if (AssetContent.FaultIn(assets[i], json) is { } fault)
                throw new ArgumentException($"Asset {i} of {prepared.Length}: {fault}", nameof(assets));
            prepared[i] = new(assets[i], assets[i].Record.AssetId!, json, AssetContent.HashWith(assets[i], json, source));
        }

        return prepared;
    }

    /// <summary>Cuts before each asset that comes a second time, so that every state of it is written.</summary>
    public static IEnumerable<ArraySegment<PreparedAsset>> DistinctRuns(PreparedAsset[] assets, int most)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        var first = 0;
        for (var i = 0; i < assets.Length; i++)
        {
            if (ids.Count == most || !ids.Add(assets[i].AssetId))
            {
                yield return new(assets, first, i - first);
                first = i;
                ids.Clear();
                ids.Add(assets[i].AssetId);
            }
        }

        if (first < assets.Length)
            yield return new(assets, first, assets.Length - first);
    }
}
