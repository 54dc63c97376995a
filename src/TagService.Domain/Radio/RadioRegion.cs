namespace TagService.Domain.Radio;

/// <summary>Where a reader may transmit with what power. Inform only: the local regulator decides.</summary>
public sealed record RadioRegion
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>ISO 3166-1 alpha-2 codes of the countries the row speaks for.</summary>
    public required IReadOnlyList<string> Countries { get; init; }

    /// <summary>UHF bands open to tag readers, the usual one first.</summary>
    public required IReadOnlyList<RadioBand> Bands { get; init; }
}

/// <summary>One UHF band of a region.</summary>
public sealed record RadioBand
{
    /// <summary>Lower edge in MHz.</summary>
    public required double LowMhz { get; init; }

    /// <summary>Upper edge in MHz.</summary>
    public required double HighMhz { get; init; }

    /// <summary>Limit in watts, as <see cref="Reference"/> states it.</summary>
    public required double LimitWatts { get; init; }

    /// <summary>Whether the rule states EIRP or ERP.</summary>
    public required PowerReference Reference { get; init; }

    /// <summary>The rule.</summary>
    public required string Rule { get; init; }

    /// <summary>How sure we are: read, secondary, or from memory.</summary>
    public required string Status { get; init; }

    /// <summary>What else to know: channels, hopping, indoor only, not in all member states.</summary>
    public string? Note { get; init; }
}

/// <summary>What a power limit refers to.</summary>
public enum PowerReference
{
    /// <summary>Equivalent isotropically radiated power.</summary>
    Eirp,

    /// <summary>Effective radiated power over a half-wave dipole; EIRP = ERP + 2.15 dB.</summary>
    Erp,
}
