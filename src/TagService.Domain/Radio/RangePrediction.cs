using TagService.Domain.TagClasses;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>
/// Expected range of one class in one scene, as numbers; texts are built on demand. Inside, everything is "path loss borne" in dB:
/// the distribution of the range is the path model's inverse of a distribution in dB.
/// </summary>
public sealed class RangePrediction
{
    private readonly bool _uhf;
    private RangeEstimate? _estimate;
    private Asked? _asked;

    internal RangePrediction(RadioScene scene, TagClass tag, CalibrationPosterior? calibration)
    {
        Scene = scene;
        Tag = tag;
        Calibration = calibration ?? CalibrationPosterior.Prior;
        _uhf = tag.Technology == TagTechnology.Uhf;
        Polarization = _uhf ? scene.Spread(tag.Antenna.Polarization) : PolarizationSpread.Aligned;
        LookSigmaDb = _uhf ? scene.LookSigmaDb : PlanningValues.HfLookSigmaDb;
        SharedSigmaDb = Math.Sqrt((Calibration.SigmaDb * Calibration.SigmaDb) + (PlanningValues.TagSigmaDb * PlanningValues.TagSigmaDb));
        if (!scene.CanRead(tag.Technology))
        {
            BorneDb = ForwardDb = ReturnDb = double.NegativeInfinity;
            LimitedBy = RangeLimit.WrongReader;
            return;
        }

        LimitedBy = _uhf ? Uhf() : Hf();
        (LowDb, MiddleDb, HighDb) = Polarization.DecileOffsets(TotalSigmaDb);
        P50M = Distance(BorneDb + MiddleDb);
        P10M = Distance(BorneDb + LowDb);
        P90M = Distance(BorneDb + HighDb);
        if (_uhf ? Gain.TotalDbi < PlanningValues.GainFloorDbi || P50M < PlanningValues.UsefulRangeM : P50M < PlanningValues.UsefulHfRangeM)
            LimitedBy = RangeLimit.DoesNotRead;
    }

    /// <summary>Surface, reading situation and band.</summary>
    public RadioScene Scene { get; }

    /// <summary>The class.</summary>
    public TagClass Tag { get; }

    /// <summary>Layer (a) in use: the prior or what the field taught.</summary>
    public CalibrationPosterior Calibration { get; }

    /// <summary>What limits the median range.</summary>
    public RangeLimit LimitedBy { get; }

    /// <summary>Does the class usefully read here at all?</summary>
    public bool Reads => LimitedBy is not (RangeLimit.DoesNotRead or RangeLimit.WrongReader);

    /// <summary>Realised gain on the object in its effects (UHF).</summary>
    public GainOnObject Gain { get; private set; }

    /// <summary>Distance in m that 90 % of such assets exceed, one look.</summary>
    public double P10M { get; }

    /// <summary>Median distance in m, one look.</summary>
    public double P50M { get; }

    /// <summary>Distance in m that 10 % of such assets exceed, one look.</summary>
    public double P90M { get; }

    /// <summary>The band used.</summary>
    public RadioBand Band => Scene.Band;

    /// <summary>
    /// The estimate as the answer carries it, made when first asked for: the text of a class that does not read is built here, so
    /// ranking should use <see cref="P50M"/> and <see cref="LimitedBy"/>.
    /// </summary>
    public RangeEstimate Estimate => _estimate ??= new()
    {
        P10 = new(P10M),
        P50 = new(P50M),
        P90 = new(P90M),
        LimitedBy = LimitedBy,
        DoesNotReadBecause = RangeExplanation.DoesNotReadBecause(this),
    };

    internal PolarizationSpread Polarization { get; }

    internal HfOnObject HfGain { get; private set; }

    internal double BorneDb { get; private set; }

    internal double ForwardDb { get; private set; }

    internal double ReturnDb { get; private set; }

    internal double LowDb { get; }

    internal double MiddleDb { get; }

    internal double HighDb { get; }

    internal double SharedSigmaDb { get; }

    internal double LookSigmaDb { get; }

    internal double TotalSigmaDb => Math.Sqrt((SharedSigmaDb * SharedSigmaDb) + (LookSigmaDb * LookSigmaDb));

    /// <summary>
    /// Probability that a stock-take of k looks reads a randomly chosen such asset at a distance: class x surface and tag are shared
    /// by its looks, multipath and roll are drawn anew at each (see <see cref="ReadSuccess.Probability"/>).
    /// </summary>
    /// <param name="distanceM">Distance, m, above 0 (HF: on the coil's axis).</param>
    /// <param name="looks">k, 1 to 1000.</param>
    /// <returns>0 to 1; 0 where the reader does not speak the tag's air interface.</returns>
    public double ReadProbability(double distanceM, int looks)
    {
        Guard.Positive(distanceM);
        if (LimitedBy == RangeLimit.WrongReader)
            return 0;
        // The same distance is asked again for every fixing of a class.
        if (_asked is not { } asked || asked.DistanceM != distanceM || asked.Looks != looks)
        {
            _asked = asked = new(
                distanceM, looks, ReadSuccess.Probability(BorneDb - Loss(distanceM), SharedSigmaDb, LookSigmaDb, Polarization, looks));
        }

        return asked.Probability;
    }

    /// <summary>
    /// Distance up to which a stock-take of k looks reads a randomly chosen such asset with a probability: inverse of <see cref="ReadProbability"/>.
    /// </summary>
    /// <param name="probability">Wanted probability, 1e-6 to 1 - 1e-6.</param>
    /// <param name="looks">k, 1 to 1000.</param>
    /// <returns>Distance, m; 0 where the reader does not speak the tag's air interface.</returns>
    public double RangeAtProbability(double probability, int looks) =>
        LimitedBy == RangeLimit.WrongReader
            ? 0
            : Distance(BorneDb - ReadSuccess.MarginDb(probability, SharedSigmaDb, LookSigmaDb, Polarization, looks));

    /// <summary>
    /// Quantile of the range over such assets, one look: the distance that a share <paramref name="probability"/> falls short of.
    /// </summary>
    /// <param name="probability">Share below, 1e-6 to 1 - 1e-6 (0.1, 0.5 and 0.9 are P10, P50, P90).</param>
    /// <returns>Distance, m; 0 where the reader does not speak the tag's air interface.</returns>
    public double RangeQuantileM(double probability) =>
        LimitedBy == RangeLimit.WrongReader ? 0 : Distance(BorneDb + Polarization.QuantileDb(probability, TotalSigmaDb));

    /// <summary>The loss budget at the median range, step by step; see <see cref="RangeExplanation"/>.</summary>
    public IReadOnlyList<LossBudgetLine> Explain() => RangeExplanation.Lines(this);

    /// <summary>The same class in the region's other bands, in the order of the rule.</summary>
    public IReadOnlyList<RangePrediction> InOtherBands() =>
        [.. Enumerable.Range(0, Scene.Reading.Region.Bands.Count)
            .Where(i => i != Scene.BandIndex)
            .Select(i => new RadioScene(Scene.Surface, Scene.Reading, i).Predict(Tag, Calibration))];

    /// <summary>
    /// Range against spacer under the tag, from none to what the mounting's height leaves above the tag's own height (30 mm where
    /// no height is stated), in 8 steps. The calibration is not carried to other spacings.
    /// </summary>
    public IReadOnlyList<StandoffPoint> StandoffCurve()
    {
        const int steps = 8;
        var room = Scene.Surface.MaxHeightMm is { } most ? Math.Max(0, most - Tag.Size.HeightMm) : 30;
        return [.. Enumerable.Range(0, room > 0 ? steps + 1 : 1).Select(i => At(room * i / steps))];

        StandoffPoint At(double addedMm)
        {
            var there = new RadioScene(Scene.Surface with { AddedStandoffMm = addedMm }, Scene.Reading, Scene.BandIndex).Predict(Tag);
            return new(addedMm, there.P10M, there.P50M, there.P90M, there.LimitedBy is not (RangeLimit.DoesNotRead or RangeLimit.WrongReader));
        }
    }

    internal double Distance(double lossDb) => _uhf ? Scene.Path.DistanceM(lossDb) : Scene.Loop!.DistanceM(lossDb);

    internal double Loss(double distanceM) => _uhf ? Scene.Path.LossDb(distanceM) : Scene.Loop!.LossDb(distanceM);

    private RangeLimit Uhf()
    {
        var a = Tag.Antenna;
        Gain = Scene.Gain(a);
        var gain = Gain.TotalDbi + Calibration.MeanShiftDb;
        ForwardDb = LinkBudget.ForwardLossDb(Scene.EirpDbm, gain, 0, a.ThresholdDbm);
        ReturnDb = LinkBudget.ReturnLossDb(
            Scene.EirpDbm, Scene.ReaderGainDbi, gain, 0, 10 * Math.Log10(a.ModulationFactor), Scene.SensitivityDbm);
        BorneDb = Math.Min(ForwardDb, ReturnDb);
        return ReturnDb < ForwardDb ? RangeLimit.Return : RangeLimit.Forward;
    }

    private RangeLimit Hf()
    {
        HfGain = HfOnObject.Of(Tag.Antenna, Scene.Surface, Scene.Loop!.RadiusM);
        ForwardDb = BorneDb = Scene.Loop.CentreFieldDb + HfGain.AreaDb + HfGain.MetalDb + Calibration.MeanShiftDb
            - (20 * Math.Log10(Tag.Antenna.ThresholdAPerM));
        return RangeLimit.Field;
    }

    private sealed record Asked(double DistanceM, int Looks, double Probability);
}
