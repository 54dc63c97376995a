namespace TagService.Domain.Surfaces;

/// <summary>What covers a surface and changes how adhesives hold; too thin to matter to the radio unless stated.</summary>
public sealed record Coating
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain English name.</summary>
    public required string Name { get; init; }

    /// <summary>Other words for it, several languages, lower case.</summary>
    public required IReadOnlyList<string> Synonyms { get; init; }

    /// <summary>Surface energy that replaces the material's, mN/m; absent: the material's own counts.</summary>
    public SurfaceEnergyBand? SurfaceEnergyMnPerM { get; init; }

    /// <summary>Roughness as a fitter judges it.</summary>
    public required SurfaceRoughness Roughness { get; init; }

    /// <summary>Must be removed or cleaned before any adhesive (oil, loose paint, rust).</summary>
    public bool MustBeRemoved { get; init; }

    /// <summary>Where the figures come from, with their status.</summary>
    public required string Source { get; init; }
}

/// <summary>Roughness as a fitter judges it by hand.</summary>
public enum SurfaceRoughness
{
    /// <summary>Glass, polished metal.</summary>
    Smooth,

    /// <summary>Painted metal, moulded plastic.</summary>
    Normal,

    /// <summary>Textured powder coat, cast iron, sawn wood.</summary>
    Rough,

    /// <summary>Concrete, brick, weathered wood.</summary>
    VeryRough,
}
