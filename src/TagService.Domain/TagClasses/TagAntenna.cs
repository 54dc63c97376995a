using System.ComponentModel.DataAnnotations;

namespace TagService.Domain.TagClasses;

/// <summary>Electrical figures of a tag class on its reference surface.</summary>
public sealed record TagAntenna
{
    /// <summary>How the antenna works, which decides how surfaces change it.</summary>
    public required AntennaKind Kind { get; init; }

    /// <summary>
    /// UHF: realised gain in dBi (mismatch and efficiency included) on the reference surface: thin cardboard for
    /// <see cref="AntennaKind.Dipole"/>, the reference plate for <see cref="AntennaKind.GroundPlane"/>. Unused for HF.
    /// </summary>
    [Range(-60, 15)]
    public double ReferenceGainDbi { get; init; }

    /// <summary>UHF: bandwidth in MHz within which the match loses less than 3 dB on the reference surface.</summary>
    [Range(0, 300)]
    public double BandwidthMhz { get; init; }

    /// <summary>Built-in distance in mm between the conductor and the mounting surface (foam, housing wall).</summary>
    [Range(0, 200)]
    public double StandoffMm { get; init; }

    /// <summary>Read power-up threshold of the chip in dBm (UHF).</summary>
    [Range(-60, 0)]
    public double ThresholdDbm { get; init; }

    /// <summary>Modulation factor M = |Gamma1 - Gamma2|^2 / 4 (UHF), 0 to 1.</summary>
    [Range(0, 1)]
    public double ModulationFactor { get; init; } = 0.25;

    /// <summary>Ground-plane classes: side in mm of the square metal plate on which the reference gain holds.</summary>
    [Range(0, 700)]
    public double ReferencePlateMm { get; init; }

    /// <summary>Ground-plane classes: loss in dB when the class is used away from metal.</summary>
    [Range(0, 60)]
    public double OffMetalPenaltyDb { get; init; }

    /// <summary>Polarisation of the tag's own antenna.</summary>
    public TagPolarization Polarization { get; init; } = TagPolarization.Linear;

    /// <summary>HF: field threshold in A/m rms of a full-size coil (0.15 for ISO/IEC 15693, 1.5 for ISO/IEC 14443).</summary>
    [Range(0, 20)]
    public double ThresholdAPerM { get; init; }

    /// <summary>HF: effective coil area in mm^2.</summary>
    [Range(0, 100_000)]
    public double CoilAreaMm2 { get; init; }

    /// <summary>A battery powers the chip; the threshold is that of the receiver.</summary>
    public bool BatteryAssisted { get; init; }
}

/// <summary>How an antenna reacts to what is behind it.</summary>
public enum AntennaKind
{
    /// <summary>Dipole-like label tuned for dielectrics, with or without a built-in spacer.</summary>
    Dipole,

    /// <summary>Carries its own ground plane and wants metal behind it.</summary>
    GroundPlane,

    /// <summary>HF loop without shielding.</summary>
    HfLoop,

    /// <summary>HF loop on a ferrite sheet, for metal.</summary>
    HfFerriteLoop,
}

/// <summary>Polarisation of a tag antenna.</summary>
public enum TagPolarization
{
    /// <summary>One axis.</summary>
    Linear,

    /// <summary>Two crossed axes: works in any roll angle.</summary>
    Dual,
}
