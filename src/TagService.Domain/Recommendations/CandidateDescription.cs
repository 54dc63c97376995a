using TagService.Domain.LifetimeCosts;
using TagService.Domain.Radio;
using TagService.Domain.Reliability;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;
using TagService.Domain.Words;

namespace TagService.Domain.Recommendations;

/// <summary>Turns the numbers of one class into what people read: budget, steps, cost parts, reasons, rejections.</summary>
internal static class CandidateDescription
{
    public static Candidate Of(AssetJudge judge, in ClassEvaluation e)
    {
        var asset = judge.Asset;
        var factor = asset.PriceFactorOf(e.TagClass);
        var life = judge.LifeOf(e);
        var cost = judge.CostCaseOf(e);
        var rejections = Rejections(new(asset, e.TagClass, e.Method, judge.Context.AsOf));
        return new()
        {
            TagClass = e.TagClass,
            Method = e.Method,
            Verdict = e.Verdict,
            Range = e.Prediction.Estimate,
            RangeCalibration = e.Prediction.Calibration,
            RequiredRangeProbability = e.Probability,
            Bands = Bands(e.Prediction),
            LossBudget = e.Prediction.Explain(),
            Steps = FittingInstruction.For(asset, e.TagClass, e.Method, e.Prediction).Steps,
            Minutes = cost.FixingMinutes + CostPlanning.EncodeVerifyRecordMinutes,
            Life = life,
            SurvivesService = life.Distribution.Survival(asset.LifeYears),
            StandoffCurve = e.Prediction.StandoffCurve(asset.MaxHeightMm),
            Cost = LifetimeCost.Of(cost, life, e.TagClass.Price.Low * factor, e.TagClass.Price.High * factor, asset.Currency),
            Reasons = Reasons(asset, e, life.Distribution, cost.DiscountedRenewals, rejections),
            Rejections = rejections,
        };
    }

    private static IReadOnlyList<BandRange> Bands(RangePrediction prediction) =>
        prediction.Tag.Technology != TagTechnology.Uhf ? []
        : prediction.Scene.Reading.Region.Bands.Count == 1 ? [Of(prediction)]
        : [Of(prediction), .. prediction.InOtherBands().Select(Of)];

    private static BandRange Of(RangePrediction p) => new(p.Scene.Band, p.P10M, p.P50M, p.P90M);

    private static List<Rejection> Rejections(SuitabilityCase c)
    {
        var rejections = new List<Rejection>();
        foreach (var rule in SuitabilityRules.All)
        {
            var finding = rule.Evaluate(c);
            if (finding.Verdict != RuleVerdict.Pass)
                rejections.Add(new(
                    rule.Id, rule.Family, finding.Verdict, finding.Needed.ToString(), finding.Offered.ToString(),
                    rule.Explain(c, finding)));
        }

        return rejections;
    }

    private static List<string> Reasons(
        ResolvedAsset asset, in ClassEvaluation e, Weibull life, double renewals, List<Rejection> rejections)
    {
        var reasons = new List<string>(4);
        var range = e.Prediction.Estimate;
        if (range.LimitedBy is RangeLimit.DoesNotRead or RangeLimit.WrongReader)
            reasons.Add(range.DoesNotReadBecause ?? "Does not read here.");
        else
            reasons.Add(InvariantText.Of($"Reads half of such assets beyond {range.P50.Value:0.00} m and nine in ten beyond {range.P10.Value:0.00} m; a stock-take at {asset.RequiredRangeM:0.##} m reads it with {e.Probability:P0} ({asset.RequiredProbability:P0} wanted)."));
        reasons.Add(InvariantText.Of($"Half of such attachments last {life.MedianYears:0.0} years or more; {life.Survival(asset.LifeYears):P0} outlive the asset's {asset.LifeYears:0.#} years."));
        reasons.Add(InvariantText.Of($"{renewals:0.00} re-applications are expected over that life (discounted)."));
        if (rejections.Count == 0)
            reasons.Add("Every suitability rule holds.");
        return reasons;
    }
}
