namespace TagService.Domain.Radio;

/// <summary>What field observations have taught of one class on one surface: layer (a) after the data.</summary>
/// <param name="Observations">How many observations it rests on; 0 is the prior.</param>
/// <param name="MeanShiftDb">Mean of the class's gain on that surface over the calculated one, dB one way.</param>
/// <param name="SigmaDb">Standard deviation left, dB.</param>
public sealed record CalibrationPosterior(int Observations, double MeanShiftDb, double SigmaDb)
{
    /// <summary>No data: no shift, the prior's spread.</summary>
    public static CalibrationPosterior Prior { get; } = new(0, 0, PlanningValues.ClassSurfaceSigmaDb);
}
