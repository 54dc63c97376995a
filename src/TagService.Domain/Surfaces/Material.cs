namespace TagService.Domain.Surfaces;

/// <summary>A material as tags meet it: its radio behaviour and how well adhesives take to it.</summary>
public sealed record Material
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain English name.</summary>
    public required string Name { get; init; }

    /// <summary>Other words for it, several languages, lower case.</summary>
    public required IReadOnlyList<string> Synonyms { get; init; }

    /// <summary>What it does to an antenna.</summary>
    public required MaterialKind Kind { get; init; }

    /// <summary>Electrical model of non-metals; absent for metals and air.</summary>
    public PermittivityModel? Permittivity { get; init; }

    /// <summary>Surface energy in mN/m as usually met; absent where adhesives are not used (liquids, air, textile).</summary>
    public SurfaceEnergyBand? SurfaceEnergyMnPerM { get; init; }

    /// <summary>Typical wall thickness in mm when nobody says.</summary>
    public double TypicalThicknessMm { get; init; } = 3;

    /// <summary>Where the figures come from, with their status.</summary>
    public required string Source { get; init; }
}

/// <summary>What a material does to an antenna.</summary>
public enum MaterialKind
{
    /// <summary>Nothing: air, foam.</summary>
    Air,

    /// <summary>Loads and detunes: plastics, wood, glass, masonry, rubber.</summary>
    Dielectric,

    /// <summary>Mirror with a phase reversal.</summary>
    Metal,

    /// <summary>Conducting liquid or wet body: a lossy half-space.</summary>
    Liquid,

    /// <summary>Living tissue, animal or plant: a lossy half-space.</summary>
    Tissue,

    /// <summary>Cloth: nearly air, but it is sewn, washed and bent.</summary>
    Textile,
}

/// <summary>How permittivity is computed. Exactly one group of members is used, by <see cref="Model"/>.</summary>
public sealed record PermittivityModel
{
    /// <summary>Which formula.</summary>
    public required PermittivityFormula Model { get; init; }

    /// <summary><see cref="PermittivityFormula.Constant"/>: relative permittivity.</summary>
    public double RelativePermittivity { get; init; }

    /// <summary><see cref="PermittivityFormula.Constant"/>: loss tangent.</summary>
    public double LossTangent { get; init; }

    /// <summary><see cref="PermittivityFormula.ItuP2040"/>: a, b of eps' = a f^b and c, d of sigma = c f^d, f in GHz.</summary>
    public IReadOnlyList<double>? Coefficients { get; init; }

    /// <summary><see cref="PermittivityFormula.ColeCole4"/>: named parameter set (muscle, dry-skin, fat).</summary>
    public string? Tissue { get; init; }
}

/// <summary>Formula of a permittivity.</summary>
public enum PermittivityFormula
{
    /// <summary>Constant permittivity and loss tangent.</summary>
    Constant,

    /// <summary>ITU-R P.2040 power laws.</summary>
    ItuP2040,

    /// <summary>Pure water, double Debye of ITU-R, at 25 °C.</summary>
    Water,

    /// <summary>Four-pole Cole-Cole of Gabriel (1996).</summary>
    ColeCole4,
}

/// <summary>Low, usual and high surface energy in mN/m.</summary>
/// <param name="Low">Low value in mN/m.</param>
/// <param name="Usual">Usual value in mN/m.</param>
/// <param name="High">High value in mN/m.</param>
public sealed record SurfaceEnergyBand(double Low, double Usual, double High);
