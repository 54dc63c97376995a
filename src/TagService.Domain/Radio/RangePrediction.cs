using TagService.Domain.TagClasses;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Expected range of one class in one scene, as numbers; texts are built on demand.</summary>
public sealed class RangePrediction
{
    private readonly RangeFigures _figures;
    private RangeEstimate? _estimate;
    private Asked? _asked;

    internal RangePrediction(RadioScene scene, TagClass tag, CalibrationPosterior? calibration)
    {
        Scene = scene;
        Tag = tag;
        Calibration = calibration ?? CalibrationPosterior.Prior;
        _figures = new(scene, tag, Calibration, scene.Surface.AddedStandoffMm);
    }

    /// <summary>Surface, reading situation and band.</summary>
    public RadioScene Scene { get; }

    /// <summary>The class.</summary>
    public TagClass Tag { get; }

    /// <summary>Layer (a) in use: the prior or what the field taught.</summary>
    public CalibrationPosterior Calibration { get; }

    /// <summary>What limits the median range.</summary>
    public RangeLimit LimitedBy => _figures.LimitedBy;

    /// <summary>Does the class usefully read here at all?</summary>
    public bool Reads => _figures.Reads;

    /// <summary>Realised gain on the object in its effects (UHF).</summary>
    public GainOnObject Gain => _figures.Gain;

    /// <summary>Distance in m that 90 % of such assets exceed, one look.</summary>
    public double P10M => _figures.P10M;

    /// <summary>Median distance in m, one look.</summary>
    public double P50M => _figures.P50M;

    /// <summary>Distance in m that 10 % of such assets exceed, one look.</summary>
    public double P90M => _figures.P90M;

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

    internal PolarizationSpread Polarization => _figures.Polarization;

    internal HfOnObject HfGain => _figures.HfGain;

    internal double BorneDb => _figures.BorneDb;

    internal double ForwardDb => _figures.ForwardDb;

    internal double ReturnDb => _figures.ReturnDb;

    internal double MiddleDb => _figures.MiddleDb;

    internal double SharedSigmaDb => _figures.SharedSigmaDb;

    internal double LookSigmaDb => _figures.LookSigmaDb;

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
        LimitedBy == RangeLimit.WrongReader ? 0 : Distance(BorneDb + Polarization.QuantileDb(probability, _figures.TotalSigmaDb));

    /// <summary>The loss budget at the median range, step by step; see <see cref="RangeExplanation"/>.</summary>
    public IReadOnlyList<LossBudgetLine> Explain() => RangeExplanation.Lines(this);

    /// <summary>The same class in the region's other bands, in the order of the rule.</summary>
    public IReadOnlyList<RangePrediction> InOtherBands()
    {
        var others = new List<RangePrediction>(Scene.Reading.Region.Bands.Count);
        for (var i = 0; i < Scene.Reading.Region.Bands.Count; i++)
        {
            if (i != Scene.BandIndex)
                others.Add(new RadioScene(Scene.Surface, Scene.Reading, i).Predict(Tag, Calibration));
        }

        return others;
    }

    /// <summary>
    /// Range against spacer under the tag, from none to what the mounting's height leaves above the tag's own height (30 mm where
    /// no height is stated), in 8 steps. The calibration is not carried to other spacings.
    /// </summary>
    public IReadOnlyList<StandoffPoint> StandoffCurve() => StandoffCurve(Scene.Surface.MaxHeightMm);

    /// <summary>The same up to another height than the scene's surface states.</summary>
    internal IReadOnlyList<StandoffPoint> StandoffCurve(double? maxHeightMm)
    {
        const int steps = 8;
        var room = maxHeightMm is { } most ? Math.Max(0, most - Tag.Size.HeightMm) : 30;
        var curve = new StandoffPoint[room > 0 ? steps + 1 : 1];
        for (var i = 0; i < curve.Length; i++)
        {
            var addedMm = room * i / steps;
            var there = new RangeFigures(Scene, Tag, CalibrationPosterior.Prior, addedMm);
            curve[i] = new(addedMm, there.P10M, there.P50M, there.P90M, there.Reads);
        }

        return curve;
    }

    internal double Distance(double lossDb) => _figures.DistanceM(lossDb);

    internal double Loss(double distanceM) => _figures.LossDb(distanceM);

    private sealed record Asked(double DistanceM, int Looks, double Probability);
}
