using TagService.Storage.Tables;

namespace TagService.Storage.Queries;

/// <summary>Which assets to list; null does not ask.</summary>
public sealed record AssetFilter
{
    /// <summary>Exactly this category.</summary>
    public string? Category { get; init; }

    /// <summary>Exactly this location name.</summary>
    public string? LocationName { get; init; }

    /// <summary>Retired ones, or those in service.</summary>
    public bool? Retired { get; init; }

    /// <summary>Content changed at or after this.</summary>
    public DateTimeOffset? ChangedSince { get; init; }

    /// <summary>Those for which no recommendation is stored yet, or those for which one is.</summary>
    public bool? WithoutRecommendation { get; init; }

    internal IQueryable<AssetRow> Of(IQueryable<AssetRow> assets)
    {
        if (Category is { } category)
            assets = assets.Where(a => a.Category == category);
        if (LocationName is { } location)
            assets = assets.Where(a => a.LocationName == location);
        if (Retired is { } retired)
            assets = retired ? assets.Where(a => a.RetiredAt != null) : assets.Where(a => a.RetiredAt == null);
        if (ChangedSince?.ToUniversalTime() is { } since)
            assets = assets.Where(a => a.UpdatedAt >= since);
        if (WithoutRecommendation is { } without)
            assets = without ? assets.Where(a => a.Recommendation == null) : assets.Where(a => a.Recommendation != null);
        return assets;
    }
}
