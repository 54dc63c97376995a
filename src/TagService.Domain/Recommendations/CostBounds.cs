namespace TagService.Domain.Recommendations;

/// <summary>
/// Lower bounds of the cost of the pairs that break no rule, in the order in which candidates are chosen. A variation that
/// touches nothing the cost depends on takes over the bounds of pairs whose rules judge as before.
/// </summary>
internal sealed class CostBounds
{
    // Added to the cost of pairs that can be marginal at best, so that one number orders verdict before cost.
    private const double MarginalStep = 1e15;

    private readonly RuleScores _scores;
    private readonly int _allPairs;
    private int[]? _place;

    /// <param name="scores">Scores of the rules.</param>
    /// <param name="pairs">Number of pairs.</param>
    /// <param name="from">Bounds of the asset that was varied, where they may be taken over.</param>
    /// <param name="leastCost">Works out the least cost of a pair.</param>
    public CostBounds(RuleScores scores, int pairs, CostBounds? from, Func<int, double> leastCost)
    {
        _scores = scores;
        _allPairs = pairs;
        Span<double> keys = stackalloc double[pairs];
        Span<int> order = stackalloc int[pairs];
        var count = 0;
        for (var i = 0; i < pairs; i++)
        {
            if (scores.IsOut(i) || scores.Of(i) is not { Fails: 0 } score)
                continue;
            order[count] = i;
            keys[count++] = from?.Known(i, score) ?? Key(score.Marginals > 0, leastCost(i));
        }

        Keys = keys[..count].ToArray();
        Pairs = order[..count].ToArray();
        Array.Sort(Keys, Pairs);
    }

    /// <summary>Pairs that break no rule, least bound first.</summary>
    public int[] Pairs { get; }

    /// <summary>Their bounds, as <see cref="Key"/> makes them.</summary>
    public double[] Keys { get; }

    /// <summary>Verdict and cost as one number.</summary>
    public static double Key(bool marginal, double cost) => marginal ? MarginalStep + cost : cost;

    private double? Known(int pair, RuleScore score)
    {
        var place = (_place ??= Places())[pair];
        return place > 0 && _scores.Of(pair) == score ? Keys[place - 1] : null;
    }

    // Where each pair stands, from 1; only the bounds that others start from need it.
    private int[] Places()
    {
        var places = new int[_allPairs];
        for (var i = 0; i < Pairs.Length; i++)
            places[Pairs[i]] = i + 1;
        return places;
    }
}
