using TagService.Domain.LifetimeCosts;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Reliability;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>Judges every class of a catalogue on one asset: rules, range, life, cost; each class with its best fixing.</summary>
internal static class Evaluator
{
    /// <summary>All classes, best first.</summary>
    public static ClassEvaluation[] EvaluateAll(ResolvedAsset asset, IReadOnlyList<TagClass> catalogue)
    {
        var severity = Severity(asset);
        var methods = new MethodScores(asset);
        var evaluations = new ClassEvaluation[catalogue.Count];
        for (var i = 0; i < evaluations.Length; i++)
            evaluations[i] = Best(asset, catalogue[i], severity, methods);
        Array.Sort(evaluations);
        return evaluations;
    }

    /// <summary>One class with the fixing that ranks best.</summary>
    public static ClassEvaluation Best(ResolvedAsset asset, TagClass tagClass) =>
        Best(asset, tagClass, Severity(asset), new MethodScores(asset));

    private static double Severity(ResolvedAsset asset) =>
        LifePriors.Severity(asset, Settings.Table[asset.Setting.ToString()]);

    private static ClassEvaluation Best(
        ResolvedAsset asset, TagClass tagClass, double severity, MethodScores methods)
    {
        ClassEvaluation best = default;
        RangePrediction? prediction = null;
        var predictedStandoff = double.NaN;
        RuleScore ofClass = default;
        foreach (var id in tagClass.AttachmentMethods)
        {
            var method = AttachmentMethods.Table[id];
            var suitability = new SuitabilityCase(asset, tagClass, method);
            if (best.TagClass is null)
                ofClass = RuleScore.Of(suitability, SuitabilityRules.OfTagClass);
            var score = ofClass + methods.Of(method) + RuleScore.Of(suitability, SuitabilityRules.OfBoth);
            // Most fixings add no spacing worth the name, so one prediction serves several of them.
            if (prediction is null || method.AddedStandoffMm != predictedStandoff)
            {
                prediction = RangePredictor.Predict(tagClass, SurfaceUnder(asset, method), asset.Reading);
                predictedStandoff = method.AddedStandoffMm;
            }

            var evaluation = Evaluate(suitability, score, prediction, severity);
            if (best.TagClass is null || evaluation.CompareTo(best) < 0)
                best = evaluation;
        }

        return best;
    }

    private static ClassEvaluation Evaluate(
        in SuitabilityCase c, RuleScore score, RangePrediction prediction, double severity)
    {
        var (asset, tagClass, method) = (c.Asset, c.TagClass, c.Method);
        var probability = prediction.ReadProbability(asset.RequiredRangeM, asset.Reading.Looks);
        var life = LifePriors.For(tagClass, method, severity, score.Marginals);
        var costCase = new CostCase
        {
            TagPrice = tagClass.Price.Typical,
            ConsumablesPrice = method.ConsumablesPrice,
            FixingMinutes = FittingInstruction.MinutesFor(asset, tagClass, method),
            LabourRatePerHour = asset.LabourRatePerHour,
            VisitMinutes = asset.VisitMinutes,
            LifeYears = asset.LifeYears,
            DiscountRate = asset.DiscountRate,
            SweepsPerYear = asset.SweepsPerYear,
            RangeM = prediction.Estimate.P50.Value,
            MissProbability = 1 - probability,
            Life = life.Distribution,
            DiscountedRenewals = LifetimeCost.Renewals(
                life.Distribution.Shape, life.Distribution.ScaleYears, asset.LifeYears, asset.DiscountRate),
        };
        var verdict = score.Fails > 0 ? CandidateVerdict.Unsuitable
            : probability < asset.RequiredProbability ? CandidateVerdict.ShortOfRange
            : score.Marginals > 0 ? CandidateVerdict.Marginal
            : CandidateVerdict.Suitable;
        return new(
            tagClass, method, verdict, score.Fails, score.Marginals, prediction, probability, life, costCase,
            CostComponents.Total(costCase));
    }

    private static MountedSurface SurfaceUnder(ResolvedAsset asset, AttachmentMethod method) => new()
    {
        Material = asset.Material,
        ThicknessMm = asset.ThicknessMm,
        Backing = asset.Backing,
        AddedStandoffMm = method.AddedStandoffMm,
        LengthMm = asset.LengthMm,
        WidthMm = asset.WidthMm,
    };

    /// <summary>Scores of the rules that look at the fixing alone, worked out once an asset.</summary>
    private sealed class MethodScores(ResolvedAsset asset)
    {
        private readonly Dictionary<AttachmentMethod, RuleScore> _scores = new(ReferenceEqualityComparer.Instance);

        public RuleScore Of(AttachmentMethod method)
        {
            if (!_scores.TryGetValue(method, out var score))
                _scores[method] = score = RuleScore.Of(new(asset, null!, method), SuitabilityRules.OfMethod);
            return score;
        }
    }
}
