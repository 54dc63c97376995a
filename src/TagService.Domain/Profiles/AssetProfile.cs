namespace TagService.Domain.Profiles;

/// <summary>What is typical of a category of assets: it fills the gaps of a thin record.</summary>
public sealed record AssetProfile
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain English name.</summary>
    public required string Name { get; init; }

    /// <summary>A family such as "vehicle" or "furniture": it gives way to any specific profile the record speaks of.</summary>
    public bool Broad { get; init; }

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
