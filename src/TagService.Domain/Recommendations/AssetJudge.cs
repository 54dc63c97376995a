using TagService.Domain.LifetimeCosts;
using TagService.Domain.Profiles;
using TagService.Domain.Reliability;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>
/// Judges the classes of a catalogue on one asset: rules for all, range and cost as far as they are asked for.
/// The order is that of <see cref="ClassEvaluation.CompareTo"/>; each class stands with its best fixing.
/// </summary>
internal sealed class AssetJudge
{
    private readonly RecommendationContext _context;
    private readonly CompiledCatalogue _catalogue;
    private readonly RuleScores _scores;
    private readonly SceneSet _scenes;
    private readonly ServiceHorizon _horizon;
    private readonly double _severity;
    private readonly CostBounds? _boundsBefore;
    private CostBounds? _bounds;
    private ClassEvaluation? _choice;
    private bool _hasChosen;

    public AssetJudge(ResolvedAsset asset, RecommendationContext context)
        : this(asset, context, new(context, asset), new(asset, context.Calibrations), new(asset.LifeYears, asset.DiscountRate), null)
    {
    }

    private AssetJudge(
        ResolvedAsset asset, RecommendationContext context, RuleScores scores, SceneSet scenes, ServiceHorizon horizon,
        CostBounds? bounds)
    {
        Asset = asset;
        _context = context;
        _catalogue = context.Catalogue;
        _scores = scores;
        _scenes = scenes;
        _horizon = horizon;
        _severity = LifePriors.Severity(asset, Settings.Of(asset.Setting));
        _boundsBefore = bounds;
    }

    public ResolvedAsset Asset { get; }

    public RecommendationContext Context => _context;

    private CostBounds Bounds => _bounds ??= new(
        _scores, _catalogue.Pairs.Length, _boundsBefore,
        pair => CostComponents.Total(Cost(pair, _scores.Of(pair), double.MaxValue, 1)));

    /// <summary>The judge of a varied asset; what the variation does not touch is taken over.</summary>
    public AssetJudge Vary(ResolvedAsset varied)
    {
        var differences = AssetComparison.Differences(Asset, varied);
        if (differences == AssetFields.None)
            return this;
        var scores = _scores.Vary(varied, differences);
        var scenes = (differences & AssetFields.Scene) == 0 ? _scenes : new(varied, _context.Calibrations);
        var horizon = (differences & AssetFields.Service) == 0 ? _horizon : new(varied.LifeYears, varied.DiscountRate);
        if ((differences & AssetFields.Cost) != 0)
            return new(varied, _context, scores, scenes, horizon, null);
        // Nothing the cost depends on: the bounds of pairs judged as before hold on, all of them where no rule judged anew.
        return new(varied, _context, scores, scenes, horizon, Bounds)
        {
            _bounds = ReferenceEquals(scores, _scores) ? Bounds : null,
        };
    }

    /// <summary>All classes, best first.</summary>
    public ClassEvaluation[] RankAll() => Rank(_catalogue.Classes.Length);

    /// <summary>The best classes, at least <paramref name="most"/> of them, in the order of all.</summary>
    /// <remarks>Fewer broken rules always come first, so classes with more than the last one shown need no range.</remarks>
    public ClassEvaluation[] Rank(int most)
    {
        var fails = new int[_catalogue.Classes.Length];
        for (var i = 0; i < fails.Length; i++)
            fails[i] = FewestFails(i);
        var sorted = (int[])fails.Clone();
        Array.Sort(sorted);
        var limit = sorted[Math.Min(most, sorted.Length) - 1];
        var ranked = new List<ClassEvaluation>(most);
        for (var i = 0; i < fails.Length; i++)
        {
            if (fails[i] <= limit)
                ranked.Add(OfClass(i, fails[i]));
        }

        ranked.Sort();
        return [.. ranked];
    }

    /// <summary>One class with its best fixing.</summary>
    public ClassEvaluation OfClass(TagClass tagClass)
    {
        var index = _catalogue.IndexOf(tagClass);
        return OfClass(index, FewestFails(index));
    }

    /// <summary>The class that would be chosen, or null when none fits; the same as the first of <see cref="RankAll"/> if that fits.</summary>
    /// <remarks>
    /// Pairs are taken in the order of a lower bound of their cost (no search, widest range), and the range is worked out
    /// only until no bound can beat the best found.
    /// </remarks>
    public ClassEvaluation? Choice()
    {
        // Plausible answers often equal what is assumed already: the same judge is asked again and again.
        if (!_hasChosen)
            (_choice, _hasChosen) = (Choose(), true);
        return _choice;
    }

    private ClassEvaluation? Choose()
    {
        var bounds = Bounds;
        ClassEvaluation? best = null;
        for (var i = 0; i < bounds.Pairs.Length; i++)
        {
            if (best is { } found && bounds.Keys[i] > CostBounds.Key(found.Verdict == CandidateVerdict.Marginal, found.Cost))
                break;
            var evaluation = Evaluate(bounds.Pairs[i]);
            if (evaluation.Fits && (best is null || evaluation.CompareTo(best.Value) < 0))
                best = evaluation;
        }

        return best;
    }

    private int FewestFails(int tagClass)
    {
        var fewest = int.MaxValue;
        for (var i = _catalogue.FirstPair[tagClass]; i < _catalogue.FirstPair[tagClass + 1]; i++)
            fewest = Math.Min(fewest, _scores.Of(i).Fails);
        return fewest;
    }

    // Only the fixings that break the fewest rules can be the best one.
    private ClassEvaluation OfClass(int tagClass, int fails)
    {
        ClassEvaluation? best = null;
        for (var i = _catalogue.FirstPair[tagClass]; i < _catalogue.FirstPair[tagClass + 1]; i++)
        {
            if (_scores.Of(i).Fails != fails)
                continue;
            var evaluation = Evaluate(i);
            if (best is not { } b || evaluation.CompareTo(b) < 0)
                best = evaluation;
        }

        return best!.Value;
    }

    private ClassEvaluation Evaluate(int pair)
    {
        var tagClass = _catalogue.Classes[_catalogue.Pairs[pair].Class];
        var method = _catalogue.Methods[_catalogue.Pairs[pair].Method];
        var score = _scores.Of(pair);
        var (prediction, probability) = _scenes.Predict(tagClass, method.AddedStandoffMm, Asset.RequiredRangeM);
        var cost = Cost(pair, score, prediction.P50M, probability);
        var verdict = score.Fails > 0 ? CandidateVerdict.Unsuitable
            : !prediction.Reads || probability < Asset.RequiredProbability ? CandidateVerdict.ShortOfRange
            : score.Marginals > 0 ? CandidateVerdict.Marginal
            : CandidateVerdict.Suitable;
        return new(
            tagClass, method, verdict, score, prediction, probability,
            LifePriors.For(tagClass, method, _severity, score.Marginals), cost, CostComponents.Total(cost));
    }

    private CostCase Cost(int pair, RuleScore score, double rangeM, double probability)
    {
        var tagClass = _catalogue.Classes[_catalogue.Pairs[pair].Class];
        var method = _catalogue.Methods[_catalogue.Pairs[pair].Method];
        var life = LifePriors.For(tagClass, method, _severity, score.Marginals).Distribution;
        return new()
        {
            TagPrice = tagClass.Price.Typical * Asset.PriceFactorOf(tagClass),
            ConsumablesPrice = method.ConsumablesPrice * Asset.PriceFactor,
            FixingMinutes = FittingInstruction.MinutesFor(Asset, tagClass, method),
            LabourRatePerHour = Asset.LabourRatePerHour,
            VisitMinutes = Asset.VisitMinutes,
            Horizon = _horizon,
            SweepsPerYear = Asset.SweepsPerYear,
            RangeM = rangeM,
            MissProbability = 1 - probability,
            Life = life,
            DiscountedRenewals = _horizon.DiscountedRenewals(life),
        };
    }
}
