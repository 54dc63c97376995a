namespace TagService.Domain.Radio;

/// <summary>Realised gain of a UHF tag as mounted, split into its effects; each in dB, losses negative.</summary>
public readonly record struct GainOnObject
{
    /// <summary>Gain on the class's reference surface, dBi.</summary>
    public double ReferenceDbi { get; init; }

    /// <summary>Resonance pulled off the band by what is behind the antenna.</summary>
    public double DetuningDb { get; init; }

    /// <summary>Power turned into heat in a lossy dielectric.</summary>
    public double DissipationDb { get; init; }

    /// <summary>Radiation resistance changed by the metal image.</summary>
    public double ImageDb { get; init; }

    /// <summary>Reactance changed by the metal image.</summary>
    public double ReactanceDb { get; init; }

    /// <summary>Field weakened by the reflection of a liquid or tissue.</summary>
    public double HalfSpaceDb { get; init; }

    /// <summary>Ground-plane class without the metal it wants, or with too little of it or too far away.</summary>
    public double GroundPlaneDb { get; init; }

    /// <summary>Height above metal in mm used by the image model; 0 where there is no metal.</summary>
    public double HeightOverMetalMm { get; init; }

    /// <summary>Effective permittivity around the antenna; 1 in air.</summary>
    public double EffectivePermittivity { get; init; }

    /// <summary>The sum, dBi.</summary>
    public double TotalDbi =>
        ReferenceDbi + DetuningDb + DissipationDb + ImageDb + ReactanceDb + HalfSpaceDb + GroundPlaneDb;
}
