using TagService.Domain.Reference;

namespace TagService.Domain.Profiles;

/// <summary>The category profiles that fill the gaps of thin records.</summary>
public static class AssetProfiles
{
    /// <summary>All rows, by id.</summary>
    public static ReferenceTable<AssetProfile> Table { get; } = new("asset-profiles.data.json", p => p.Id);

    /// <summary>The broad default for assets that nothing was recognised of.</summary>
    public static AssetProfile Unknown { get; } = Table["unknown-asset"];
}
