using TagService.Domain.TagClasses;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Updates layer (a), class x surface, by what the field found.</summary>
public static class RangeCalibration
{
    private const int Points = 401;

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
            var p = RangePredictor.Predict(tag, surface, f.Reading);
            if (p.LimitedBy == RangeLimit.WrongReader)
                continue;
            var median = p.BorneDb + p.MiddleDb;
            var spread = p.Polarization.StandardDeviationDb;
            var sigma = Math.Sqrt(
                (PlanningValues.TagSigmaDb * PlanningValues.TagSigmaDb) + (p.LookSigmaDb * p.LookSigmaDb) + (spread * spread));
            var check = f.CheckM is { } at ? p.Loss(Guard.Positive(at)) - median : 0;
            shifts.Add(new(f.Kind, p.Loss(Guard.Positive(f.DistanceM)) - median, sigma, check));
        }

        return Posterior(shifts);
    }

    /// <summary>
    /// Posterior of the mean shift mu under the prior N(0, 2.5 dB): likelihood per finding y with spread s
    /// measured phi((y - mu)/s); answers at Phi((mu - y)/s); silent at Phi((y - mu)/s); measured because it failed a check c
    /// phi((y - mu)/s)/Phi((c - mu)/s). Log-concave; integrated on a grid that is narrowed onto the posterior until it holds.
    /// </summary>
    /// <param name="findings">Findings in dB.</param>
    /// <returns>Mean and standard deviation of mu, dB, and the count. Numerical error below 0.01 dB. Measurements alone have the conjugate normal result (tested); bounds and selection are tested against dense integration and simulated data.</returns>
    public static CalibrationPosterior Posterior(IReadOnlyList<ShiftObservation> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        if (findings.Count == 0)
            return CalibrationPosterior.Prior;
        double low = -20, high = 20;
        foreach (var f in findings)
        {
            Guard.Finite(f.ValueDb);
            Guard.Positive(f.SigmaDb);
            low = Math.Min(low, f.ValueDb - (6 * f.SigmaDb));
            high = Math.Max(high, f.ValueDb + (6 * f.SigmaDb));
        }

        double mean = 0, sigma = 0;
        for (var pass = 0; pass < 6; pass++)
        {
            (mean, sigma) = Moments(findings, low, high);
            var wide = 8 * Math.Max(sigma, (high - low) / (Points - 1));
            (low, high) = (Math.Max(low, mean - wide), Math.Min(high, mean + wide));
        }

        return new(findings.Count, mean, sigma);
    }

    private static (double Mean, double Sigma) Moments(IReadOnlyList<ShiftObservation> findings, double low, double high)
    {
        var step = (high - low) / (Points - 1);
        var log = new double[Points];
        var most = double.NegativeInfinity;
        for (var i = 0; i < Points; i++)
            most = Math.Max(most, log[i] = LogDensity(findings, low + (i * step)));
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

    private static double LogDensity(IReadOnlyList<ShiftObservation> findings, double mu)
    {
        var prior = mu / PlanningValues.ClassSurfaceSigmaDb;
        var sum = -prior * prior / 2;
        foreach (var f in findings)
        {
            var z = (f.ValueDb - mu) / f.SigmaDb;
            sum += f.Kind switch
            {
                FieldRangeKind.Measured => -z * z / 2,
                FieldRangeKind.AnswersAt => LogTail(-z),
                FieldRangeKind.SilentAt => LogTail(z),
                _ => (-z * z / 2) - LogTail((f.CheckDb - mu) / f.SigmaDb),
            };
        }

        return sum;
    }

    /// <summary>ln Phi(x), finite far into the lower tail (asymptote -x^2/2 - ln(-x sqrt(2 pi)) below -30).</summary>
    private static double LogTail(double x) =>
        x > -30 ? Math.Log(StandardNormal.Cumulative(x)) : (-x * x / 2) - Math.Log(-x * 2.5066282746310002);
}
