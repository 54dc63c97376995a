using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>The stateless read-range calculator: the recommendation's kernels with every figure given by the caller.</summary>
public static class ReadRangeCalculation
{
    /// <summary>
    /// Forward and return range and, if asked, the probability of a read.
    /// Ranges: path loss borne (see <see cref="LinkBudget"/>) put into <see cref="PathModel"/>.
    /// Probability: Phi((borne - loss(at))/sigma), normal shadowing in dB, the same fade on both legs
    /// (published measurements show up to 8 dB difference between the legs within 2 m: Kuester et al. 2010).
    /// </summary>
    /// <param name="inputs">Figures in the ranges its members state.</param>
    /// <returns>Ranges in m. Accuracy: that of the inputs; far field only (beyond about 5 cm at UHF). Tested by the published grid and budget rows.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static ReadRangeResult Calculate(ReadRangeInputs inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        Check(inputs);
        var path = new PathModel(inputs.FrequencyMhz, inputs.BreakpointM ?? 1, inputs.PathExponent ?? 2);
        var leg = (inputs.PolarizationLossDb ?? 0) + (inputs.MismatchLossDb ?? 0) + (inputs.OtherLossDb ?? 0);
        var forward = LinkBudget.ForwardLossDb(inputs.EirpDbm, inputs.TagGainDbi, leg, inputs.PowerThresholdDbm);
        double? back = inputs is { ReaderGainDbi: { } gain, ReaderSensitivityDbm: { } sensitivity }
            ? LinkBudget.ReturnLossDb(
                inputs.EirpDbm, gain, inputs.TagGainDbi, leg, 10 * Math.Log10(inputs.ModulationFactor ?? 0.25), sensitivity)
            : null;
        var limit = back < forward ? RangeLimit.Return : RangeLimit.Forward;
        var borne = limit == RangeLimit.Return ? back!.Value : forward;
        double? probability = inputs is { AtM: { } at, SigmaDb: { } sigma }
            ? StandardNormal.Cumulative((borne - path.LossDb(at)) / sigma)
            : null;
        return new(
            path.DistanceM(forward), back is { } b ? path.DistanceM(b) : null, path.DistanceM(borne), limit, probability);
    }

    private static void Check(ReadRangeInputs i)
    {
        Guard.InRange(i.FrequencyMhz, 100, 6000, nameof(i.FrequencyMhz));
        Guard.InRange(i.EirpDbm, -30, 60, nameof(i.EirpDbm));
        Guard.InRange(i.ReaderGainDbi ?? 0, -30, 30, nameof(i.ReaderGainDbi));
        Guard.InRange(i.ReaderSensitivityDbm ?? 0, -130, 0, nameof(i.ReaderSensitivityDbm));
        Guard.InRange(i.TagGainDbi, -60, 20, nameof(i.TagGainDbi));
        Guard.InRange(i.PowerThresholdDbm, -80, 20, nameof(i.PowerThresholdDbm));
        Guard.InRange(i.PolarizationLossDb ?? 0, 0, 60, nameof(i.PolarizationLossDb));
        Guard.InRange(i.MismatchLossDb ?? 0, 0, 60, nameof(i.MismatchLossDb));
        Guard.InRange(i.OtherLossDb ?? 0, -60, 100, nameof(i.OtherLossDb));
        Guard.InRange(i.PathExponent ?? 2, 1, 8, nameof(i.PathExponent));
        Guard.InRange(i.BreakpointM ?? 1, 0.01, 10_000, nameof(i.BreakpointM));
        Guard.InRange(i.ModulationFactor ?? 1, 0.0001, 1, nameof(i.ModulationFactor));
        Guard.InRange(i.SigmaDb ?? 1, 0.01, 30, nameof(i.SigmaDb));
        Guard.InRange(i.AtM ?? 1, 0.001, 10_000, nameof(i.AtM));
    }
}
