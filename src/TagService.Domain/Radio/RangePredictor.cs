using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>Expected range of a tag class on a surface in a reading situation.</summary>
public static class RangePredictor
{
    private const int Kept = 8;

    [ThreadStatic]
    private static RadioScene?[]? _scenes;

    [ThreadStatic]
    private static int _next;

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
        TagClass tag, MountedSurface surface, ReadingSituation reading, CalibrationPosterior? calibration = null)
    {
        ArgumentNullException.ThrowIfNull(surface);
        return SceneOf(surface, reading).Predict(tag, calibration);
    }

    /// <summary>
    /// A catalogue comes through here class by class with the same few surfaces (one per spacing that a fixing adds): keep this
    /// thread's last scenes. Records do not change, so the result is the same with and without.
    /// </summary>
    private static RadioScene SceneOf(MountedSurface surface, ReadingSituation reading)
    {
        var scenes = _scenes ??= new RadioScene?[Kept];
        foreach (var scene in scenes)
        {
            if (scene is not null && ReferenceEquals(scene.Reading, reading) && scene.Surface == surface)
                return scene;
        }

        var made = new RadioScene(surface, reading);
        scenes[_next] = made;
        _next = (_next + 1) % Kept;
        return made;
    }
}
