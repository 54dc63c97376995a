namespace TagService.Storage.Bulk;

/// <summary>An asset ready to be compared and sent.</summary>
internal readonly record struct PreparedAsset(AssetToLoad Asset, string AssetId, byte[] Hash)
{
    /// <summary>Checks the name of a source.</summary>
    /// <exception cref="ArgumentException">It is none.</exception>
    public static void CheckSource(string source)
    {
        if (source.Length is 0 or > AssetContent.MaxTextLength || source.Contains('\0', StringComparison.Ordinal))
            throw new ArgumentException($"The name of a source has 1 to {AssetContent.MaxTextLength} characters.", nameof(source));
    }

    /// <summary>Checks and hashes; NUL characters are looked for when the whole record is sent, which most are not.</summary>
    /// <exception cref="ArgumentException">It cannot be stored.</exception>
    public static PreparedAsset Of(AssetToLoad asset, string source) => AssetContent.TextFaultOf(asset) is { } fault
        ? throw new ArgumentException($"Asset {asset.Record.AssetId}: {fault}", nameof(asset))
        : new(asset, asset.Record.AssetId!, AssetContent.HashOf(asset, source));

    /// <summary>Cuts before each asset that comes a second time, so that every state of it is written.</summary>
    /// <exception cref="ArgumentException">One cannot be stored; thrown before the first run is given.</exception>
    public static IEnumerable<PreparedAsset[]> DistinctRuns(IReadOnlyList<AssetToLoad> assets, string source, int most)
    {
        CheckSource(source);
        return Cut(RowsAtOnce.Select(assets, a => Of(a, source)), most);
    }

    private static IEnumerable<PreparedAsset[]> Cut(PreparedAsset[] assets, int most)
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        var first = 0;
        for (var i = 0; i < assets.Length; i++)
        {
            if (ids.Count == most || !ids.Add(assets[i].AssetId))
            {
                yield return assets[first..i];
                first = i;
                ids.Clear();
                ids.Add(assets[i].AssetId);
            }
        }

        if (first < assets.Length)
            yield return assets[first..];
    }
}
