using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

/// <summary>What a kind of surroundings brings with it when nobody says otherwise.</summary>
public sealed record SettingRow
{
    /// <summary>The setting.</summary>
    public required Setting Setting { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Every field of the environment but the setting, the hazardous area and the years of sun, which follow from <see cref="SunShare"/>.</summary>
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
