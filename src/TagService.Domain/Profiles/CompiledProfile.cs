using System.Collections.Frozen;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Profiles;

/// <summary>A profile's words looked up once: material, coating, backing, contents, protection codes.</summary>
internal sealed class CompiledProfile
{
    private static readonly FrozenDictionary<string, CompiledProfile> ById = AssetProfiles.Table.All
        .ToFrozenDictionary(p => p.Id, p => new CompiledProfile(p), StringComparer.Ordinal);

    private CompiledProfile(AssetProfile profile)
    {
        var typical = profile.Typical;
        Material = Materials.Table[typical.Surface!.Material!];
        Coating = typical.Surface.Coating is { } coating ? Coatings.Table[coating] : null;
        Backing = typical.Surface.Backing is { } backing ? Materials.Table[backing] : null;
        Contents = typical.Contents is { } contents ? Materials.Table[contents] : null;
        IpRequired = typical.Environment?.IpRequired is { } codes ? [.. codes.Select(c => IpCodes.Normalise(c)!)] : null;
    }

    public Material Material { get; }

    public Coating? Coating { get; }

    public Material? Backing { get; }

    public Material? Contents { get; }

    public IReadOnlyList<string>? IpRequired { get; }

    public static CompiledProfile Of(AssetProfile profile) => ById[profile.Id];
}
