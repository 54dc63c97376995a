namespace TagService.Storage.Tables;

/// <summary>What the measured ranges of one class on one material have taught; written with the measurements in one transaction.</summary>
public sealed class RangeCalibrationRow
{
    /// <summary>Tag class.</summary>
    public required string TagClassId { get; init; }

    /// <summary>Material at the surface.</summary>
    public required string MaterialId { get; init; }

    /// <summary>Findings it rests on.</summary>
    public required int Observations { get; init; }

    /// <summary>Mean shift of the gain against the calculated one in dB.</summary>
    public required double MeanShiftDb { get; init; }

    /// <summary>Standard deviation left in dB.</summary>
    public required double SigmaDb { get; init; }

    /// <summary>Measured ranges of tags not picked for their range.</summary>
    public required int Measured { get; init; }

    /// <summary>Bounds from below.</summary>
    public required int AnswersAt { get; init; }

    /// <summary>Bounds from above.</summary>
    public required int SilentAt { get; init; }

    /// <summary>Ranges measured because the tag failed a check.</summary>
    public required int FailedCheck { get; init; }

    /// <summary>Ranges between a distance at which the tag answers and one at which it does not.</summary>
    public required int Between { get; init; }

    /// <summary>Figures and engine the posterior was computed with; of another basis it must be computed anew.</summary>
    public required string Basis { get; init; }

    /// <summary>When it was computed.</summary>
    public required DateTimeOffset ComputedAt { get; init; }
}
