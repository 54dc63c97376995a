using TagService.Domain.TagClasses;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Updates layer (a), class x surface, by what the field found.</summary>
public static class RangeCalibration
{
    private const int Points = 201;

    /// <summary>
    /// Posterior of a class on a surface after field findings. Each finding becomes a shift in dB: path loss at the distance found
    /// minus the calculated median loss borne in the same situation; single tags spread about the class's mean by layers (b), (c) and
    /// polarisation together. Findings of one tag counted several times make the answer too sure: give one per tag.
    /// </summary>
    /// <param name="tag">Class.</param>
    /// <param name="surface">Surface.</param>
    /// <param name="findings">Findings, each with the power and reader it was made with; those whose reader cannot read the class are left out.</param>
    /// <returns>The posterior; <see cref="CalibrationPosterior.Prior"/> without findings.</returns>
    public static CalibrationPosterior Posterior(TagClass tag, MountedSurface surface, IReadOnlyList<FieldRange> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        var shifts = new List<ShiftObservation>(findings.Count);
        foreach (var f in findings)
        {
            if (ShiftOf(tag, surface, f) is { } shift)
                shifts.Add(shift);
        }

        return Posterior(shifts);
    }

    /// <summary>One finding as a shift in dB: see <see cref="Posterior(TagClass, MountedSurface, IReadOnlyList{FieldRange})"/>.</summary>
    /// <param name="tag">Class.</param>
    /// <param name="surface">Surface of this finding.</param>
    /// <param name="finding">The finding, with the power and reader it was made with.</param>
    /// <returns>The shift, dB; null when the reader cannot read the class.</returns>
    public static ShiftObservation? ShiftOf(TagClass tag, MountedSurface surface, FieldRange finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var p = new RadioScene(surface, finding.Reading).Predict(tag);
        if (p.LimitedBy == RangeLimit.WrongReader)
            return null;
        var median = p.BorneDb + p.MiddleDb;
        var spread = p.Polarization.StandardDeviationDb;
        var sigma = Math.Sqrt(
            (PlanningValues.TagSigmaDb * PlanningValues.TagSigmaDb) + (p.LookSigmaDb * p.LookSigmaDb) + (spread * spread));
        var check = finding.CheckM is { } at ? p.Loss(Guard.Positive(at)) - median : 0;
        return new(finding.Kind, p.Loss(Guard.Positive(finding.DistanceM)) - median, sigma, check);
    }

    /// <summary>
    /// Posterior of the mean shift mu under the prior N(0, 2.5 dB): likelihood per finding y with spread s
    /// measured phi((y - mu)/s); answers at Phi((mu - y)/s); silent at Phi((y - mu)/s); measured because it failed a check c
    /// phi((y - mu)/s)/Phi((c - mu)/s); answers at y, silent at c: Phi((c - mu)/s) - Phi((y - mu)/s). Log-concave; integrated on a grid
    /// that is narrowed onto the posterior until it holds.
    /// </summary>
    /// <param name="findings">Findings in dB.</param>
    /// <returns>Mean and standard deviation of mu, dB, and the count. Numerical error below 0.01 dB. Measurements alone have the conjugate normal result (tested); bounds and selection are tested against dense integration and simulated data.</returns>
    public static CalibrationPosterior Posterior(IReadOnlyList<ShiftObservation> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        if (findings.Count == 0)
            return CalibrationPosterior.Prior;
        // Prior and measurements together are one normal; only bounds and selected cases need the grid.
        var precision = 1 / (PlanningValues.ClassSurfaceSigmaDb * PlanningValues.ClassSurfaceSigmaDb);
        double weighted = 0;
        var others = new List<ShiftObservation>();
        foreach (var f in findings)
        {
            Guard.Finite(f.ValueDb);
            Guard.Positive(f.SigmaDb);
            if (f.Kind == FieldRangeKind.Between)
                Guard.Positive(f.CheckDb - f.ValueDb);
            // A selected case has the same normal factor; its truncation goes to the grid.
            if (f.Kind is FieldRangeKind.Measured or FieldRangeKind.MeasuredBecauseItFailed)
            {
                precision += 1 / (f.SigmaDb * f.SigmaDb);
                weighted += f.ValueDb / (f.SigmaDb * f.SigmaDb);
            }

            if (f.Kind != FieldRangeKind.Measured)
                others.Add(f);
        }

        double mean = weighted / precision, sigma = Math.Sqrt(1 / precision);
        if (others.Count > 0)
            (mean, sigma) = OnGrid(others, mean, sigma);
        return new(findings.Count, mean, sigma);
    }

    private static (double Mean, double Sigma) OnGrid(List<ShiftObservation> others, double normalMean, double normalSigma)
    {
        // Bounds and truncations can push the posterior far outside the normal part: start wide, then close in.
        var reach = others.Max(f => Math.Abs(f.ValueDb - normalMean) + (6 * f.SigmaDb)) + (8 * normalSigma);
        double low = normalMean - reach, high = normalMean + reach, mean = normalMean, sigma = normalSigma;
        for (var pass = 0; pass < 8; pass++)
        {
            (mean, sigma) = Moments(others, normalMean, normalSigma, low, high);
            var wide = 8 * Math.Max(sigma, (high - low) / (Points - 1));
            double nextLow = Math.Max(low, mean - wide), nextHigh = Math.Min(high, mean + wide);
            if (nextHigh - nextLow > 0.8 * (high - low))
                break;
            (low, high) = (nextLow, nextHigh);
        }

        return (mean, sigma);
    }

    private static (double Mean, double Sigma) Moments(
        List<ShiftObservation> others, double normalMean, double normalSigma, double low, double high)
    {
        var step = (high - low) / (Points - 1);
        var log = new double[Points];
        var most = double.NegativeInfinity;
        for (var i = 0; i < Points; i++)
        {
            var mu = low + (i * step);
            var z = (mu - normalMean) / normalSigma;
            most = Math.Max(most, log[i] = LogOf(others, mu) - (z * z / 2));
        }

        double weight = 0, first = 0, second = 0;
        for (var i = 0; i < Points; i++)
        {
            var w = Math.Exp(log[i] - most);
            var offset = i * step;
            weight += w;
            first += w * offset;
            second += w * offset * offset;
        }

        var mean = first / weight;
        return (low + mean, Math.Sqrt(Math.Max(0, (second / weight) - (mean * mean))));
    }

    private static double LogOf(List<ShiftObservation> others, double mu)
    {
        double sum = 0;
        foreach (var f in others)
        {
            sum += f.Kind switch
            {
                FieldRangeKind.AnswersAt => LogTail((mu - f.ValueDb) / f.SigmaDb),
                FieldRangeKind.SilentAt => LogTail((f.ValueDb - mu) / f.SigmaDb),
                FieldRangeKind.Between => LogBetween((f.ValueDb - mu) / f.SigmaDb, (f.CheckDb - mu) / f.SigmaDb),
                _ => -LogTail((f.CheckDb - mu) / f.SigmaDb),
            };
        }

        return sum;
    }

    /// <summary>ln(Phi(b) - Phi(a)) for b above a: taken in the lower tail, where the difference keeps its digits.</summary>
    private static double LogBetween(double a, double b)
    {
        if (a > 0)
            (a, b) = (-b, -a);
        var upper = LogTail(b);
        return upper + Math.Log(Math.Max(double.Epsilon, -Math.Exp(LogTail(a) - upper) + 1));
    }

    /// <summary>ln Phi(x), finite far into the lower tail (asymptote -x^2/2 - ln(-x sqrt(2 pi)) below -30).</summary>
    private static double LogTail(double x) =>
        x > -30 ? Math.Log(StandardNormal.Cumulative(x)) : (-x * x / 2) - Math.Log(-x * 2.5066282746310002);
}
