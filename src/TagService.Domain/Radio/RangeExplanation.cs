using TagService.Domain.TagClasses;
using TagService.Domain.Words;

namespace TagService.Domain.Radio;

/// <summary>Puts a prediction into words: the loss budget, and why a class does not read.</summary>
internal static class RangeExplanation
{
    private const string Friis = "Friis; Ahson and Ilyas (eds.), RFID Handbook, CRC 2008, eq. 4.4 (read)";
    private const string Planning = "planning value, common practice";

    /// <summary>
    /// Lines in order; LevelDbm is the running sum of ValueDb within each of the two parts. Forward part: from the radiated power to the
    /// chip's threshold, at the median range, the last line being what is left over. Reply part (UHF): from the power at the tag to the
    /// reader's sensitivity. HF: the same in dB over 1 A/m of field.
    /// A reader of the wrong kind gives a single line that says so.
    /// </summary>
    public static IReadOnlyList<LossBudgetLine> Lines(RangePrediction p)
    {
        if (p.LimitedBy == RangeLimit.WrongReader)
            return [new("Air interface", 0, 0, DoesNotReadBecause(p)!, p.Scene.Reading.Reader.Source)];
        var lines = new Ledger();
        if (p.Tag.Technology == TagTechnology.Uhf)
        {
            Forward(p, lines);
            Reply(p, lines);
        }
        else
        {
            Field(p, lines);
        }

        return lines.All;
    }

    /// <summary>One sentence with the numbers, or null when the class reads.</summary>
    public static string? DoesNotReadBecause(RangePrediction p) => p.LimitedBy switch
    {
        RangeLimit.WrongReader => p.Tag.Technology == TagTechnology.Uhf
            ? $"The tag works at 860-960 MHz and a {p.Scene.Reading.Reader.Name} has no UHF side."
            : $"The tag works at 13.56 MHz and a {p.Scene.Reading.Reader.Name} has no HF side.",
        RangeLimit.DoesNotRead when p.Tag.Technology != TagTechnology.Uhf =>
            InvariantText.Of($"Median range {p.P50M * 1000:0.0} mm is below the useful minimum of {PlanningValues.UsefulHfRangeM * 1000:0} mm; metal {p.HfGain.HeightOverMetalMm:0.0} mm behind the coil costs {-p.HfGain.MetalDb:0.0} dB of field."),
        RangeLimit.DoesNotRead when p.Gain.TotalDbi < PlanningValues.GainFloorDbi =>
            InvariantText.Of($"Realised gain on this surface is {p.Gain.TotalDbi:0.0} dBi, below the floor of {PlanningValues.GainFloorDbi:0} dBi; median range {p.P50M:0.00} m.{Height(p)}"),
        RangeLimit.DoesNotRead =>
            InvariantText.Of($"Median range {p.P50M:0.00} m is below the useful minimum of {PlanningValues.UsefulRangeM:0.0} m; realised gain {p.Gain.TotalDbi:0.0} dBi.{Height(p)}"),
        _ => null,
    };

    // An effect that is absent gets no line, and its note is not even written.
    private static void Forward(RangePrediction p, Ledger l)
    {
        var s = p.Scene;
        var g = p.Gain;
        var loss = p.BorneDb + p.MiddleDb;
        l.Add("Radiated power", s.EirpDbm, Power(s), $"{s.Band.Rule} ({s.Band.Status})");
        l.Add(
            "Path loss at the median range", -loss,
            InvariantText.Of($"{p.P50M:0.##} m at {s.FrequencyMhz:0.#} MHz; free space to {s.Reading.Site.BreakpointM:0.##} m, exponent {s.Reading.Site.PathExponent:0.##} beyond ({s.Reading.Site.Name})"),
            $"{Friis}; {s.Reading.Site.Source}");
        l.Add("Polarisation", p.MiddleDb, InvariantText.Of($"{p.Polarization.Description}; effect on the median"), "RFID Handbook, CRC 2008, ch. 10 (read)");
        l.Add("Tag gain on its reference surface", g.ReferenceDbi, "realised gain: efficiency and match included", p.Tag.Source);
        if (g.DetuningDb != 0)
            l.Add("Detuning by the surface", g.DetuningDb, InvariantText.Of($"effective permittivity {g.EffectivePermittivity:0.00}, bandwidth {p.Tag.Antenna.BandwidthMhz:0} MHz"), "strip over layers, flattened at 13.1 dB: De Donno et al., PIER C 45, 2013 (read); " + Planning);
        if (g.DissipationDb != 0)
            l.Add("Loss in the material", g.DissipationDb, InvariantText.Of($"{s.Surface.Material.Name}, {s.Surface.ThicknessMm:0.##} mm"), s.Surface.Material.Source);
        if (g.ImageDb != 0)
            l.Add("Metal behind: radiation resistance", g.ImageDb, InvariantText.Of($"{g.HeightOverMetalMm:0.##} mm above the metal, chip resistance fixed"), "image theory, Balanis, Antenna Theory, sec. 4.8 (from memory)");
        if (g.ReactanceDb != 0)
            l.Add("Metal behind: reactance", g.ReactanceDb, InvariantText.Of($"mutual reactance of antenna and image, bandwidth {p.Tag.Antenna.BandwidthMhz:0} MHz"), "induced EMF, Carter 1932 (from memory); " + Planning);
        if (g.HalfSpaceDb != 0)
            l.Add("Liquid or tissue behind", g.HalfSpaceDb, "field weakened by the reflection of a lossy half-space", "Fresnel; ITU-R P.2040-3, sec. 2.2 (secondary)");
        if (g.GroundPlaneDb != 0)
            l.Add("Ground plane without its reference plate", g.GroundPlaneDb, InvariantText.Of($"off-metal penalty {p.Tag.Antenna.OffMetalPenaltyDb:0.#} dB, reference plate {p.Tag.Antenna.ReferencePlateMm:0} mm"), Planning);
        Calibrated(p, l);
        l.Add("Left over at the chip", -(p.ForwardDb - p.BorneDb), InvariantText.Of($"power-up threshold {p.Tag.Antenna.ThresholdDbm:0.#} dBm{(p.LimitedBy == RangeLimit.Forward ? ": the power reaching the chip is the limit" : "")}"), p.Tag.Source);
    }

    private static void Reply(RangePrediction p, Ledger l)
    {
        var s = p.Scene;
        var leg = p.Gain.TotalDbi + p.Calibration.MeanShiftDb + p.MiddleDb;
        var loss = p.BorneDb + p.MiddleDb;
        l.Restart();
        l.Add("Reply: power at the tag", s.EirpDbm - loss + leg, "sum of the lines above, before what is left over", Friis);
        l.Add("Reply: modulation", 10 * Math.Log10(p.Tag.Antenna.ModulationFactor), InvariantText.Of($"factor {p.Tag.Antenna.ModulationFactor:0.##}"), "Nikitin, Rao and Martinez 2007; Barbot 2021 (read)");
        l.Add("Reply: tag gain and polarisation", leg, "the same antenna on the way back", "Griffin and Durgin, IEEE AP Mag. 51(2), 2009 (from memory)");
        l.Add("Reply: path back", -loss, "the same path", Friis);
        l.Add("Reply: reader antenna", s.ReaderGainDbi, InvariantText.Of($"{s.ReaderGainDbi:0.#} dBi"), s.Reading.ReaderGainDbi is null ? s.Reading.Reader.Source : "stated");
        l.Add("Reply: left over at the reader", -2 * (p.ReturnDb - p.BorneDb), InvariantText.Of($"sensitivity {s.SensitivityDbm:0.#} dBm{(p.LimitedBy == RangeLimit.Return ? ": the reply is the limit" : "")}"), s.Reading.ReaderSensitivityDbm is null ? s.Reading.Reader.Source : "stated");
    }

    private static void Field(RangePrediction p, Ledger l)
    {
        var reader = p.Scene.Reading.Reader;
        var loss = p.Loss(p.P50M);
        var threshold = p.Tag.Antenna.ThresholdAPerM;
        l.Add("Field at the reader coil's centre", p.Scene.Loop!.CentreFieldDb, InvariantText.Of($"dB over 1 A/m; radius {reader.HfCoilRadiusMm:0.#} mm, {reader.HfAmpereTurns:0.##} ampere-turns"), reader.Source);
        l.Add("Fall with distance at the median range", -loss, InvariantText.Of($"{p.P50M:0.###} m on the axis"), "Biot-Savart; Finkenzeller, RFID Handbook, ch. 4 (secondary)");
        if (p.HfGain.AreaDb != 0)
            l.Add("Coil smaller than a card", p.HfGain.AreaDb, InvariantText.Of($"{p.Tag.Antenna.CoilAreaMm2:0} mm2 against {PlanningValues.CardCoilAreaMm2:0} mm2"), Planning);
        if (p.HfGain.MetalDb != 0)
            l.Add("Metal behind the coil", p.HfGain.MetalDb, InvariantText.Of($"{p.HfGain.HeightOverMetalMm:0.##} mm above the metal{(p.Tag.Antenna.Kind == AntennaKind.HfFerriteLoop ? ", on ferrite" : "")}"), "image of the reader coil; " + Planning);
        Calibrated(p, l);
        l.Add("Left over at the tag", (20 * Math.Log10(threshold)) - l.Level, InvariantText.Of($"threshold {threshold:0.###} A/m"), p.Tag.Source);
    }

    private static void Calibrated(RangePrediction p, Ledger l)
    {
        if (p.Calibration.Observations > 0)
            l.Add("Field calibration", p.Calibration.MeanShiftDb, InvariantText.Of($"{p.Calibration.Observations} observations of this class on this surface, {p.Calibration.SigmaDb:0.0} dB left uncertain"), "the user's own measurements");
    }

    private static string Power(RadioScene s)
    {
        var who = s.Reading.EirpDbm is null ? s.Reading.Reader.Name : "stated";
        return s.WantedDbm > s.LimitDbm
            ? InvariantText.Of($"{s.WantedDbm:0.##} dBm EIRP ({who}) limited to {s.LimitDbm:0.##} dBm by {s.Band.LowMhz:0.###}-{s.Band.HighMhz:0.###} MHz, {s.Reading.Region.Name}")
            : InvariantText.Of($"dBm EIRP ({who}), within the limit of {s.LimitDbm:0.##} dBm of {s.Band.LowMhz:0.###}-{s.Band.HighMhz:0.###} MHz, {s.Reading.Region.Name}");
    }

    private static string Height(RangePrediction p) =>
        p.Gain.HeightOverMetalMm > 0 ? InvariantText.Of($" The antenna is {p.Gain.HeightOverMetalMm:0.0} mm above metal.") : "";

    private sealed class Ledger
    {
        private readonly List<LossBudgetLine> _lines = [];

        public double Level { get; private set; }

        public IReadOnlyList<LossBudgetLine> All => _lines;

        public void Restart() => Level = 0;

        public void Add(string step, double valueDb, string note, string source)
        {
            Level += valueDb;
            _lines.Add(new(step, valueDb, Level, note, source));
        }
    }
}
