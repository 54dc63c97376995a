using TagService.Domain.LifetimeCosts;
using TagService.Domain.Reliability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Recommendations;

/// <summary>
/// Judges the classes of a catalogue on one asset: rules, range and cost as far as they are asked for.
/// The order is that of <see cref="ClassEvaluation.CompareTo"/>; each class stands with its best fixing.
/// </summary>
internal sealed class AssetJudge
{
    private const int MostOnStack = 128;

    private readonly RecommendationContext _context;
    private readonly CompiledCatalogue _catalogue;
    private readonly RuleScores _scores;
    private readonly SceneSet _scenes;
    private readonly PairCosts _costs;
    private readonly AssetJudge? _before;
    private readonly bool _readsAsBefore;
    private CostBound[]? _bounds;
    private ClassEvaluation? _choice;
    private bool _hasChosen;

    public AssetJudge(ResolvedAsset asset, RecommendationContext context)
        : this(asset, context, new(context, asset), new(asset, context), new(asset, context.Catalogue))
    {
    }

    private AssetJudge(ResolvedAsset asset, RecommendationContext context, RuleScores scores, SceneSet scenes, PairCosts costs)
    {
        Asset = asset;
        _context = context;
        _catalogue = context.Catalogue;
        _scores = scores;
        _scenes = scenes;
        _costs = costs;
    }

    private AssetJudge(AssetJudge before, ResolvedAsset varied, AssetFields differences)
        : this(
            varied,
            before._context,
            before._scores.Vary(varied, differences),
            (differences & AssetFields.Scene) == 0 ? before._scenes : new(varied, before._context),
            before._costs.Vary(varied, differences))
    {
        _before = before;
        _readsAsBefore = (differences & (AssetFields.Scene | AssetFields.RequiredRangeM | AssetFields.RequiredProbability)) == 0;
    }

    public ResolvedAsset Asset { get; }

    public RecommendationContext Context => _context;

    /// <summary>The bounds on an original asset, which its variations start from.</summary>
    private CostBound[] Bounds => _bounds ??= CostBounds.Of(_scores.Unbroken, _costs);

    /// <summary>The judge of a varied asset; what the variation does not touch is taken over.</summary>
    public AssetJudge Vary(ResolvedAsset varied)
    {
        // A variation of a variation is one of the original.
        if (_before is not null)
            return _before.Vary(varied);
        var differences = AssetComparison.Differences(Asset, varied);
        return differences == AssetFields.None ? this : new(this, varied, differences);
    }

    /// <summary>All classes, best first.</summary>
    public ClassEvaluation[] RankAll() => Rank(_catalogue.Classes.Length);

    /// <summary>The best classes, at least <paramref name="most"/> of them, in the order of all.</summary>
    /// <remarks>Fewer broken rules always come first, so classes with more than the last one shown need no range.</remarks>
    public ClassEvaluation[] Rank(int most)
    {
        if (most < _catalogue.Classes.Length && RankFitting(most) is { } best)
            return best;
        var fails = new int[_catalogue.Classes.Length];
        var limit = _scores.FewestFails(fails, most);
        var ranked = new List<ClassEvaluation>(most + RecommendationEngine.ShownCandidates);
        for (var i = 0; i < fails.Length; i++)
        {
            if (fails[i] <= limit)
                ranked.Add(OfClass(i, fails[i]));
        }

        ranked.Sort();
        return [.. ranked];
    }

    /// <summary>The best classes if so many fit, else null; found like <see cref="Choice"/>, which is the first of them.</summary>
    private ClassEvaluation[]? RankFitting(int most)
    {
        var bounds = Bounds;
        var best = new BestClasses(most);
        Span<double> keys = bounds.Length <= MostOnStack ? stackalloc double[bounds.Length] : new double[bounds.Length];
        CostBounds.CopyKeys(bounds, keys);
        while (CostBounds.Least(keys) is >= 0 and var least && keys[least] <= best.WorstKey)
        {
            keys[least] = double.NaN;
            if (EvaluateWithin(bounds[least].Cost, best.WorstKey) is { } evaluation)
                best.Add(evaluation);
        }

        (_choice, _hasChosen) = (best.First, true);
        return best.AreAll ? best.ToArray() : null;
    }

    /// <summary>One class with its best fixing.</summary>
    public ClassEvaluation OfClass(TagClass tagClass)
    {
        var index = _catalogue.IndexOf(tagClass);
        return OfClass(index, _scores.FewestFails(index));
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

    /// <summary>Everything the cost of an evaluated pair depends on.</summary>
    public CostCase CostCaseOf(in ClassEvaluation e) => _costs.Case(e.PairCost, e.Prediction.P50M, e.Probability);

    /// <summary>Expected life of an evaluated pair.</summary>
    public LifeEstimate LifeOf(in ClassEvaluation e) => _costs.LifeOf(e.PairCost.Pair, e.PairCost.Marginals);

    private ClassEvaluation? Choose()
    {
        if (_before is not { } before)
            return Choose(Bounds, null);
        if (ReferenceEquals(_scores, before._scores) && ReferenceEquals(_costs, before._costs))
            return _readsAsBefore ? before.Choice() : Choose(before.Bounds, null);
        var pairs = _scores.Unbroken;
        var bounds = pairs.Length <= MostOnStack ? stackalloc CostBound[pairs.Length] : new CostBound[pairs.Length];
        CostBounds.Vary(bounds, pairs, _costs, before.Bounds, before._costs);
        return Choose(bounds, _readsAsBefore ? before : null);
    }

    /// <summary>Takes the pairs by their bounds, after what is known of them from the asset that was varied, if they read as there.</summary>
    private ClassEvaluation? Choose(ReadOnlySpan<CostBound> bounds, AssetJudge? readsLike)
    {
        var keys = bounds.Length <= MostOnStack ? stackalloc double[bounds.Length] : new double[bounds.Length];
        CostBounds.CopyKeys(bounds, keys);
        var best = readsLike is null ? null : ChoiceKept(bounds, readsLike.Choice(), keys);
        var bestKey = best is { } kept ? KeyOf(kept) : double.PositiveInfinity;
        // A few pairs decide: looking for the least each time costs less than sorting them all.
        while (CostBounds.Least(keys) is >= 0 and var least && keys[least] <= bestKey)
        {
            keys[least] = double.NaN;
            if (EvaluateWithin(bounds[least].Cost, bestKey) is not { } evaluation || (best is { } b && evaluation.CompareTo(b) >= 0))
                continue;
            best = evaluation;
            bestKey = KeyOf(evaluation);
        }

        return best;
    }

    /// <summary>An earlier choice, if it stands; then what has not changed has lost to it already and is struck out.</summary>
    private static ClassEvaluation? ChoiceKept(ReadOnlySpan<CostBound> bounds, ClassEvaluation? choice, Span<double> keys)
    {
        if (choice is { } c && !IsKept(bounds, c.PairCost.Pair))
            return null;
        for (var i = 0; i < keys.Length; i++)
        {
            if (bounds[i].IsKept)
                keys[i] = double.NaN;
        }

        return choice;
    }

    private static bool IsKept(ReadOnlySpan<CostBound> bounds, int pair)
    {
        foreach (ref readonly var bound in bounds)
        {
            if (bound.Cost.Pair == pair)
                return bound.IsKept;
        }

        return false;
    }

    private static double KeyOf(in ClassEvaluation e) => CostBounds.KeyOf(e.Verdict == CandidateVerdict.Marginal, e.Cost);

    // A pair that breaks no rule, if it reads and can cost less than what is found; the probability, dearest of all, comes last.
    private ClassEvaluation? EvaluateWithin(in PairCost cost, double bestKey)
    {
        var (tagClass, method) = _catalogue.Pairs[cost.Pair];
        var prediction = _scenes.Predict(tagClass, method);
        if (!prediction.Reads || CostBounds.KeyOf(cost.Marginals > 0, _costs.Total(cost, prediction.P50M, 1)) > bestKey)
            return null;
        var evaluation = Evaluate(cost, 0);
        return evaluation.Fits ? evaluation : null;
    }

    // Only the fixings that break the fewest rules can be the best one.
    private ClassEvaluation OfClass(int tagClass, int fails)
    {
        ClassEvaluation? best = null;
        for (var i = _catalogue.FirstPair[tagClass]; i < _catalogue.FirstPair[tagClass + 1]; i++)
        {
            var score = _scores.Of(i);
            if (score.Fails != fails)
                continue;
            var evaluation = Evaluate(_costs.Of(i, score.Marginals), fails);
            if (best is not { } b || evaluation.CompareTo(b) < 0)
                best = evaluation;
        }

        return best!.Value;
    }

    private ClassEvaluation Evaluate(in PairCost cost, int fails)
    {
        var (tagClass, method) = _catalogue.Pairs[cost.Pair];
        var prediction = _scenes.Predict(tagClass, method);
        var probability = prediction.ReadProbability(Asset.RequiredRangeM, Asset.Reading.Looks);
        var verdict = fails > 0 ? CandidateVerdict.Unsuitable
            : !prediction.Reads || probability < Asset.RequiredProbability ? CandidateVerdict.ShortOfRange
            : cost.Marginals > 0 ? CandidateVerdict.Marginal
            : CandidateVerdict.Suitable;
        return new(
            _catalogue.Classes[tagClass], _catalogue.Methods[method], verdict, fails, prediction, probability, cost,
            _costs.Total(cost, prediction.P50M, probability));
    }
}
