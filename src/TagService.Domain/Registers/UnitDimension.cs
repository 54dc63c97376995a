namespace TagService.Domain.Registers;

/// <summary>What a unit measures; only units of one dimension convert into each other.</summary>
public enum UnitDimension
{
    /// <summary>Base unit m.</summary>
    Length,

    /// <summary>Base unit K; a point on the scale, not a difference.</summary>
    Temperature,

    /// <summary>Base unit s.</summary>
    Duration,

    /// <summary>A fraction of 1.</summary>
    Ratio,

    /// <summary>Times a Julian year.</summary>
    Frequency,

    /// <summary>Base unit J.</summary>
    Energy,

    /// <summary>Level relative to 1 mW, dBm.</summary>
    PowerLevel,

    /// <summary>Level relative to the isotropic radiator, dBi.</summary>
    GainLevel,
}
