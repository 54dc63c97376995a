using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>What is typical of a category of assets: it fills the gaps of a thin record.</summary>
public sealed record AssetProfile
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain English name.</summary>
    public required string Name { get; init; }

    /// <summary>Words and phrases that point to it, by language code (en, de, fr, es, ...), lower case.</summary>
    public required IReadOnlyDictionary<string, IReadOnlyList<string>> Words { get; init; }

    /// <summary>Most likely values. Setting, material, mounting and life are always given; the rest comes from the setting.</summary>
    public required ProfileValues Typical { get; init; }

    /// <summary>Other plausible values of single fields, with their share among such assets.</summary>
    public required IReadOnlyList<ProfileAlternative> Alternatives { get; init; }

    /// <summary>Ids of the cautions that go with this kind of asset.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>Where it comes from.</summary>
    public required string Source { get; init; }
}

/// <summary>The fillable parts of an asset record.</summary>
public sealed record ProfileValues
{
    /// <summary>Surface.</summary>
    public SurfaceRecord? Surface { get; init; }

    /// <summary>Room.</summary>
    public MountingRecord? Mounting { get; init; }

    /// <summary>Surroundings.</summary>
    public EnvironmentRecord? Environment { get; init; }

    /// <summary>Contents.</summary>
    public string? Contents { get; init; }

    /// <summary>Reading.</summary>
    public ReadingRecord? Reading { get; init; }

    /// <summary>Service.</summary>
    public ServiceRecord? Service { get; init; }
}

/// <summary>Another plausible value of one field.</summary>
/// <param name="Field">JSON pointer of the field, for example /surface/material.</param>
/// <param name="Share">Share of such assets, 0 to 1; the typical value has the rest.</param>
/// <param name="Values">The record parts that carry the value (and what comes with it, such as another thickness).</param>
public sealed record ProfileAlternative(string Field, double Share, ProfileValues Values);

/// <summary>What a kind of surroundings brings with it when nobody says otherwise.</summary>
public sealed record SettingRow
{
    /// <summary>The setting.</summary>
    public required Setting Setting { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Every field of the environment but the setting and the hazardous area.</summary>
    public required EnvironmentRecord Environment { get; init; }

    /// <summary>Share of the asset's life that counts as full outdoor sun, 0 to 1 (gives uvYears).</summary>
    public required double SunShare { get; init; }

    /// <summary>Id of the usual site model for reading.</summary>
    public required string Site { get; init; }

    /// <summary>Factor on the failure rate against a heated office, at least 1.</summary>
    public required double Severity { get; init; }

    /// <summary>Where it comes from.</summary>
    public required string Source { get; init; }
}
