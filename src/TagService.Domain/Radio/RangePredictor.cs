using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>Expected range of one tag class on a surface in a reading situation; for a whole catalogue make one <see cref="RadioScene"/>.</summary>
public static class RangePredictor
{
    /// <summary>
    /// Predicts in the region's usual band (the first); the others are <see cref="RangePrediction.InOtherBands"/>.
    /// The path loss borne is the smaller of forward and return limit (<see cref="LinkBudget"/>) with the class's realised gain on the
    /// object; one dB of any gain moves both limits by one dB, so that range = path model^-1(borne + a + b + c - polarisation), with
    /// (a) class x surface, (b) tag, (c) look normal in dB and the polarisation loss a distribution. HF classes: the reader coil's field
    /// against the tag's threshold, same layers.
    /// </summary>
    /// <param name="tag">Tag class with its electrical figures.</param>
    /// <param name="surface">Surface, wall, backing, spacing, room.</param>
    /// <param name="reading">Reader, region, place, polarisation, looks.</param>
    /// <param name="calibration">Field knowledge of this class on this surface; absent: the prior.</param>
    /// <returns>The prediction; distances in m. Accuracy: the stated spread; published prototypes lie within p5-p95 (tested).</returns>
    public static RangePrediction Predict(
        TagClass tag, MountedSurface surface, ReadingSituation reading, CalibrationPosterior? calibration = null) =>
        new RadioScene(surface, reading).Predict(tag, calibration);
}
