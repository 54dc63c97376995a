using TagService.Domain.Recommendations;

namespace TagService.Domain.Radio;

/// <summary>Planning defaults of a kind of reader; a user's own figures override them.</summary>
public sealed record ReaderKindRow
{
    /// <summary>Kind.</summary>
    public required ReaderKind Kind { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Radiated power in dBm EIRP the kind can reach, before the region's limit; absent: the kind has no UHF side.</summary>
    public double? EirpDbm { get; init; }

    /// <summary>Antenna gain in dBi.</summary>
    public double GainDbi { get; init; }

    /// <summary>Weakest reply decoded, dBm.</summary>
    public double SensitivityDbm { get; init; }

    /// <summary>HF: radius of the reader's coil in mm; 0 if the kind has no HF side.</summary>
    public double HfCoilRadiusMm { get; init; }

    /// <summary>HF: ampere-turns of that coil.</summary>
    public double HfAmpereTurns { get; init; }

    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }
}
