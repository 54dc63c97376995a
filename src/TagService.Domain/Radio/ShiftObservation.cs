namespace TagService.Domain.Radio;

/// <summary>A field finding as the calibration uses it: the gain over the calculated one, dB one way.</summary>
/// <param name="Kind">What the value means.</param>
/// <param name="ValueDb">Shift found, or its bound, dB.</param>
/// <param name="SigmaDb">Standard deviation of a single tag and look about the class's mean, dB, above 0.</param>
/// <param name="CheckDb">Truncation point of a case selected by a failed check, or upper bound of one between two distances, dB; unused otherwise.</param>
public readonly record struct ShiftObservation(FieldRangeKind Kind, double ValueDb, double SigmaDb, double CheckDb = 0);
