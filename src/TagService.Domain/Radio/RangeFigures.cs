using TagService.Domain.TagClasses;

namespace TagService.Domain.Radio;

/// <summary>
/// The numbers behind a <see cref="RangePrediction"/>: one class in one scene with a spacing under it, which need not be the scene's own.
/// Inside, everything is "path loss borne" in dB: the distribution of the range is the path model's inverse of a distribution in dB.
/// </summary>
internal readonly struct RangeFigures
{
    private readonly RadioScene _scene;
    private readonly bool _uhf;

    public RangeFigures(RadioScene scene, TagClass tag, CalibrationPosterior calibration, double spacingMm)
    {
        _scene = scene;
        _uhf = tag.Technology == TagTechnology.Uhf;
        Polarization = _uhf ? scene.Spread(tag.Antenna.Polarization) : PolarizationSpread.Aligned;
        LookSigmaDb = _uhf ? scene.LookSigmaDb : PlanningValues.HfLookSigmaDb;
        SharedSigmaDb = Math.Sqrt((calibration.SigmaDb * calibration.SigmaDb) + (PlanningValues.TagSigmaDb * PlanningValues.TagSigmaDb));
        if (!scene.CanRead(tag.Technology))
        {
            BorneDb = ForwardDb = ReturnDb = double.NegativeInfinity;
            LimitedBy = RangeLimit.WrongReader;
            return;
        }

        var a = tag.Antenna;
        if (_uhf)
        {
            Gain = scene.Gain(a, spacingMm);
            var gain = Gain.TotalDbi + calibration.MeanShiftDb;
            ForwardDb = LinkBudget.ForwardLossDb(scene.EirpDbm, gain, 0, a.ThresholdDbm);
            ReturnDb = LinkBudget.ReturnLossDb(
                scene.EirpDbm, scene.ReaderGainDbi, gain, 0, 10 * Math.Log10(a.ModulationFactor), scene.SensitivityDbm);
            BorneDb = Math.Min(ForwardDb, ReturnDb);
            LimitedBy = ReturnDb < ForwardDb ? RangeLimit.Return : RangeLimit.Forward;
        }
        else
        {
            HfGain = HfOnObject.Of(a, scene.Surface, spacingMm, scene.Loop!.RadiusM);
            ForwardDb = BorneDb = scene.Loop.CentreFieldDb + HfGain.AreaDb + HfGain.MetalDb + calibration.MeanShiftDb
                - (20 * Math.Log10(a.ThresholdAPerM));
            LimitedBy = RangeLimit.Field;
        }

        (LowDb, MiddleDb, HighDb) = Polarization.DecileOffsets(TotalSigmaDb);
        P50M = DistanceM(BorneDb + MiddleDb);
        if (_uhf ? Gain.TotalDbi < PlanningValues.GainFloorDbi || P50M < PlanningValues.UsefulRangeM : P50M < PlanningValues.UsefulHfRangeM)
            LimitedBy = RangeLimit.DoesNotRead;
    }

    public PolarizationSpread Polarization { get; }

    public GainOnObject Gain { get; }

    public HfOnObject HfGain { get; }

    public double ForwardDb { get; }

    public double ReturnDb { get; }

    public double BorneDb { get; }

    public double LowDb { get; }

    public double MiddleDb { get; }

    public double HighDb { get; }

    public double SharedSigmaDb { get; }

    public double LookSigmaDb { get; }

    public double TotalSigmaDb => Math.Sqrt((SharedSigmaDb * SharedSigmaDb) + (LookSigmaDb * LookSigmaDb));

    public RangeLimit LimitedBy { get; }

    public bool Reads => LimitedBy is not (RangeLimit.DoesNotRead or RangeLimit.WrongReader);

    public double P50M { get; }

    // The ends of the spread are worked out when asked for: ranking needs the median only.
    public double P10M => LimitedBy == RangeLimit.WrongReader ? 0 : DistanceM(BorneDb + LowDb);

    public double P90M => LimitedBy == RangeLimit.WrongReader ? 0 : DistanceM(BorneDb + HighDb);

    public double DistanceM(double lossDb) => _uhf ? _scene.Path.DistanceM(lossDb) : _scene.Loop!.DistanceM(lossDb);

    public double LossDb(double distanceM) => _uhf ? _scene.Path.LossDb(distanceM) : _scene.Loop!.LossDb(distanceM);
}
