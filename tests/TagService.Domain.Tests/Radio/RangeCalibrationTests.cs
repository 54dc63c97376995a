using CsCheck;
using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>What the field teaches: measured ranges, bounds and selected cases.</summary>
public sealed class RangeCalibrationTests
{
    private static readonly MountedSurface Surface = TestRows.On(TestRows.Steel);
    private static readonly ReadingSituation Reading = TestRows.Reading("eu", site: "warehouse");

    [Fact]
    public void Posterior_WithoutFindings_IsThePrior() =>
        Assert.Equal(CalibrationPosterior.Prior, RangeCalibration.Posterior(TestRows.HardTag, Surface, []));

    [Fact]
    public void Posterior_OfTheMedianItself_StaysAndNarrows() =>
        Gen.Int[1, 200].Sample(n =>
        {
            var median = RangePredictor.Predict(TestRows.HardTag, Surface, Reading).P50M;
            var findings = Enumerable.Repeat(new FieldRange(Reading, median, FieldRangeKind.Measured), n).ToArray();
            var posterior = RangeCalibration.Posterior(TestRows.HardTag, Surface, findings);
            Assert.Equal(n, posterior.Observations);
            Assert.Equal(0, posterior.MeanShiftDb, 0.01);
            Assert.True(posterior.SigmaDb < CalibrationPosterior.Prior.SigmaDb);
        }, iter: 20);

    // Measurements alone have the textbook conjugate normal result: precision-weighted mean.
    [Fact]
    public void Posterior_OfMeasurements_IsTheConjugateNormal() =>
        Gen.Double[-12, 12].Array[1, 300].Select(Gen.Double[0.5, 6]).Sample((values, sigma) =>
        {
            var posterior = RangeCalibration.Posterior([.. values.Select(v => new ShiftObservation(FieldRangeKind.Measured, v, sigma))]);
            var prior = 1 / Math.Pow(CalibrationPosterior.Prior.SigmaDb, 2);
            var data = values.Length / (sigma * sigma);
            Assert.Equal(data * values.Average() / (prior + data), posterior.MeanShiftDb, 0.01);
            Assert.Equal(Math.Sqrt(1 / (prior + data)), posterior.SigmaDb, 0.01);
        }, iter: 100);

    // A bound never moves the estimate the wrong way, whatever is known already.
    [Fact]
    public void Posterior_OneMoreBound_NeverMovesTheWrongWay() =>
        Gen.Select(AnyFinding.Array[0, 12], Gen.Double[-25, 25], Gen.Double[1, 6]).Sample((known, bound, sigma) =>
        {
            var before = RangeCalibration.Posterior(known).MeanShiftDb;
            Assert.True(With(FieldRangeKind.AnswersAt) >= before - 1e-3);
            Assert.True(With(FieldRangeKind.SilentAt) <= before + 1e-3);

            double With(FieldRangeKind kind) => RangeCalibration.Posterior([.. known, new ShiftObservation(kind, bound, sigma)]).MeanShiftDb;
        }, iter: 200);

    // Slow oracle: dense summation over +-15 dB with the likelihood written out.
    [Fact]
    public void Posterior_DenseSummation_Agrees() =>
        AnyFinding.Array[1, 12].Sample(findings =>
        {
            double weight = 0, first = 0, second = 0;
            for (var mu = -15.0; mu <= 15; mu += 0.01)
            {
                var log = -mu * mu / (2 * 2.5 * 2.5);
                foreach (var f in findings)
                {
                    var z = (f.ValueDb - mu) / f.SigmaDb;
                    log += f.Kind switch
                    {
                        FieldRangeKind.Measured => -z * z / 2,
                        FieldRangeKind.AnswersAt => Math.Log(StandardNormal.Cumulative(-z)),
                        FieldRangeKind.SilentAt => Math.Log(StandardNormal.Cumulative(z)),
                        FieldRangeKind.Between => Math.Log(StandardNormal.Cumulative((f.CheckDb - mu) / f.SigmaDb) - StandardNormal.Cumulative(z)),
                        _ => (-z * z / 2) - Math.Log(StandardNormal.Cumulative((f.CheckDb - mu) / f.SigmaDb)),
                    };
                }

                // 300 keeps up to 30 findings of 10 sigma above the smallest double.
                var w = Math.Exp(log + 300);
                weight += w;
                first += w * mu;
                second += w * mu * mu;
            }

            var posterior = RangeCalibration.Posterior(findings);
            Assert.Equal(first / weight, posterior.MeanShiftDb, 0.01);
            Assert.Equal(Math.Sqrt((second / weight) - Math.Pow(first / weight, 2)), posterior.SigmaDb, 0.01);
        }, iter: 40);

    // Tags measured only because they failed a check say little against the class: taken for a fair sample they would pull it down.
    [Fact]
    public void Posterior_SelectedByAFailedCheck_IsCorrectedForTheSelection()
    {
        // Simulated fleet (invented, fixed seed): class mean +1 dB, spread 3 dB, those below -1 dB are refitted and measured.
        var random = new Random(7);
        var failed = new List<double>();
        while (failed.Count < 400)
        {
            var y = 1 + (3 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
            if (y < -1)
                failed.Add(y);
        }

        var naive = RangeCalibration.Posterior([.. failed.Select(y => new ShiftObservation(FieldRangeKind.Measured, y, 3))]);
        var aware = RangeCalibration.Posterior([.. failed.Select(y => new ShiftObservation(FieldRangeKind.MeasuredBecauseItFailed, y, 3, -1))]);
        Assert.True(naive.MeanShiftDb < -2);
        Assert.InRange(aware.MeanShiftDb, 1 - (3 * aware.SigmaDb), 1 + (3 * aware.SigmaDb));
        Assert.True(aware.SigmaDb > naive.SigmaDb);
    }

    [Fact]
    public void Prediction_WithAPosterior_MovesAndNarrowsAndSaysOnWhat()
    {
        var prior = RangePredictor.Predict(TestRows.HardTag, Surface, Reading);
        var findings = Enumerable.Range(0, 40).Select(_ => new FieldRange(Reading, prior.P50M * 0.7, FieldRangeKind.Measured)).ToArray();
        var posterior = RangeCalibration.Posterior(TestRows.HardTag, Surface, findings);
        var after = RangePredictor.Predict(TestRows.HardTag, Surface, Reading, posterior);
        Assert.InRange(after.P50M, prior.P50M * 0.7, prior.P50M * 0.78);
        Assert.True(after.P90M / after.P10M < prior.P90M / prior.P10M);
        Assert.Contains(after.Explain(), l => l.Step == "Field calibration" && l.Note.StartsWith("40 observations", StringComparison.Ordinal));
    }

    private static readonly Gen<ShiftObservation> AnyFinding =
        Gen.Select(Gen.Enum<FieldRangeKind>(), Gen.Double[-10, 10], Gen.Double[1, 6], Gen.Double[0.1, 8])
            .Select((kind, value, sigma, above) => new ShiftObservation(kind, value, sigma, value + above));
}
