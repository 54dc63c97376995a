using System.ComponentModel.DataAnnotations;

namespace TagService.Domain.Radio;

/// <summary>What the read-range calculator takes; all losses are per leg (they count once forward, twice for the reply).</summary>
public sealed record ReadRangeInputs
{
    /// <summary>Frequency in MHz.</summary>
    [Range(100, 6000)]
    public required double FrequencyMhz { get; init; }

    /// <summary>Radiated power in dBm EIRP.</summary>
    [Range(-30, 60)]
    public required double EirpDbm { get; init; }

    /// <summary>Gain of the reader's antenna in dBi; needed for the return range.</summary>
    [Range(-30, 30)]
    public double? ReaderGainDbi { get; init; }

    /// <summary>Weakest reply the reader decodes in dBm; needed for the return range.</summary>
    [Range(-130, 0)]
    public double? ReaderSensitivityDbm { get; init; }

    /// <summary>Gain of the tag's antenna as mounted, in dBi.</summary>
    [Range(-60, 20)]
    public required double TagGainDbi { get; init; }

    /// <summary>Power-up threshold of the chip in dBm.</summary>
    [Range(-80, 20)]
    public required double PowerThresholdDbm { get; init; }

    /// <summary>Polarisation loss per leg in dB (3.01 for a circular reader and a linear tag); absent: 0.</summary>
    [Range(0, 60)]
    public double? PolarizationLossDb { get; init; }

    /// <summary>Mismatch loss per leg in dB; absent: 0.</summary>
    [Range(0, 60)]
    public double? MismatchLossDb { get; init; }

    /// <summary>Any further loss per leg in dB; negative is a gain; absent: 0.</summary>
    [Range(-60, 100)]
    public double? OtherLossDb { get; init; }

    /// <summary>Path exponent beyond the breakpoint; absent: 2 (free space).</summary>
    [Range(1, 8)]
    public double? PathExponent { get; init; }

    /// <summary>Distance in m up to which free space holds; absent: 1.</summary>
    [Range(0.01, 10_000)]
    public double? BreakpointM { get; init; }

    /// <summary>Modulation factor M = |Gamma1 - Gamma2|^2 / 4; absent: 0.25.</summary>
    [Range(0.0001, 1)]
    public double? ModulationFactor { get; init; }

    /// <summary>Standard deviation of the one-way level in dB, for the read probability.</summary>
    [Range(0.01, 30)]
    public double? SigmaDb { get; init; }

    /// <summary>Distance in m at which the read probability is wanted; needs <see cref="SigmaDb"/>.</summary>
    [Range(0.001, 10_000)]
    public double? AtM { get; init; }
}
