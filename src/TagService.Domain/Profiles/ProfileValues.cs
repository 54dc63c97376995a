using TagService.Domain.Recommendations;

namespace TagService.Domain.Profiles;

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

    /// <summary>Identity.</summary>
    public IdentityRecord? Identity { get; init; }
}

/// <summary>Another plausible value of one field.</summary>
/// <param name="Field">JSON pointer of the field, for example /surface/material.</param>
/// <param name="Share">Share of such assets, 0 to 1; the typical value has the rest.</param>
/// <param name="Values">The record parts that carry the value (and what comes with it, such as another thickness).</param>
public sealed record ProfileAlternative(string Field, double Share, ProfileValues Values);
