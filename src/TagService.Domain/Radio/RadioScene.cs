using TagService.Domain.TagClasses;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>
/// One surface in one reading situation, in one of the region's bands, with all that is the same for every tag class computed
/// once: make it once and predict a whole catalogue with it.
/// </summary>
public sealed class RadioScene
{
    private readonly SurfaceElectrics _at;
    private readonly PolarizationSpread _linear;
    private readonly PolarizationSpread _dual;

    /// <summary>Prepares surface, band, path and polarisation.</summary>
    /// <param name="surface">Where the tag sits; lengths above 0, thickness and spacing not negative.</param>
    /// <param name="reading">Reader, region, place.</param>
    /// <param name="bandIndex">Which of the region's bands; 0 is the usual one.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such band, or a figure outside its range.</exception>
    public RadioScene(MountedSurface surface, ReadingSituation reading, int bandIndex = 0)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentOutOfRangeException.ThrowIfNegative(bandIndex);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(bandIndex, reading.Region.Bands.Count);
        Guard.InRange(reading.Looks, 1, 1000);
        Guard.NotNegative(surface.AddedStandoffMm);
        Surface = surface;
        Reading = reading;
        BandIndex = bandIndex;
        Band = reading.Region.Bands[bandIndex];
        FrequencyMhz = (Band.LowMhz + Band.HighMhz) / 2;
        LimitDbm = LinkBudget.LimitEirpDbm(Band);
        // A stated power does not give a reader a UHF side that its kind lacks (a telephone).
        WantedDbm = reading.Reader.EirpDbm is { } usual ? reading.EirpDbm ?? usual : null;
        EirpDbm = Math.Min(WantedDbm ?? double.NegativeInfinity, LimitDbm);
        ReaderGainDbi = reading.ReaderGainDbi ?? reading.Reader.GainDbi;
        SensitivityDbm = reading.ReaderSensitivityDbm ?? reading.Reader.SensitivityDbm;
        Path = new(FrequencyMhz, reading.Site.BreakpointM, reading.Site.PathExponent);
        LookSigmaDb = Math.Max(0.1, reading.Site.LookSigmaDb);
        _linear = PolarizationSpread.For(reading.Polarization, TagPolarization.Linear, reading.TagOrientation);
        _dual = PolarizationSpread.For(reading.Polarization, TagPolarization.Dual, reading.TagOrientation);
        _at = new(surface, FrequencyMhz);
        Loop = reading.Reader.HfCoilRadiusMm > 0
            ? new HfReach(reading.Reader.HfCoilRadiusMm / 1000, reading.Reader.HfAmpereTurns)
            : null;
    }

    /// <summary>Where the tag sits.</summary>
    public MountedSurface Surface { get; private set; }

    /// <summary>Reader, region, place.</summary>
    public ReadingSituation Reading { get; }

    /// <summary>Index of the band used.</summary>
    public int BandIndex { get; }

    /// <summary>The band used.</summary>
    public RadioBand Band { get; }

    /// <summary>Centre of the band, MHz.</summary>
    public double FrequencyMhz { get; }

    /// <summary>The band's limit, dBm EIRP.</summary>
    public double LimitDbm { get; }

    /// <summary>What the user stated or the reader kind can do, dBm EIRP; absent: no UHF side.</summary>
    public double? WantedDbm { get; }

    /// <summary>What is radiated: the wanted power, capped by the limit, dBm EIRP.</summary>
    public double EirpDbm { get; }

    internal double ReaderGainDbi { get; }

    internal double SensitivityDbm { get; }

    internal PathModel Path { get; }

    internal double LookSigmaDb { get; }

    internal HfReach? Loop { get; }

    /// <summary>Expected range of one class in this scene. No text is built; see <see cref="RangePrediction.Explain"/>.</summary>
    /// <param name="tag">Tag class.</param>
    /// <param name="calibration">What the field has taught of this class on this surface; absent: the prior.</param>
    public RangePrediction Predict(TagClass tag, CalibrationPosterior? calibration = null)
    {
        ArgumentNullException.ThrowIfNull(tag);
        return new(this, tag, calibration);
    }

    internal PolarizationSpread Spread(TagPolarization tag) => tag == TagPolarization.Dual ? _dual : _linear;

    /// <summary>The same scene with another spacing under the tag: neither material nor path depends on it.</summary>
    internal RadioScene WithStandoff(double addedMm)
    {
        var scene = (RadioScene)MemberwiseClone();
        scene.Surface = Surface with { AddedStandoffMm = Guard.NotNegative(addedMm) };
        return scene;
    }

    internal GainOnObject Gain(TagAntenna antenna, double spacingMm) => antenna.Kind == AntennaKind.GroundPlane
        ? GroundPlaneOnObject.Gain(antenna, _at, spacingMm)
        : DipoleOnObject.Gain(antenna, _at, spacingMm);

    internal bool CanRead(TagTechnology technology) =>
        technology == TagTechnology.Uhf ? WantedDbm is not null : Loop is not null;
}
