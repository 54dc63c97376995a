namespace TagService.Domain.Recommendations;

/// <summary>One pair that breaks no rule, with a lower bound of its cost.</summary>
/// <param name="Cost">What its cost depends on beside the range.</param>
/// <param name="Key">The bound, as <see cref="CostBounds.KeyOf"/> makes it.</param>
/// <param name="IsKept">The pair is judged and, at the same range, costs as on the asset that was varied.</param>
internal readonly record struct CostBound(PairCost Cost, double Key, bool IsKept);

/// <summary>Lower bounds of the cost of the pairs that break no rule: what they cost without any search and at the widest range.</summary>
internal static class CostBounds
{
    // Added to the cost of pairs that can be marginal at best, so that one number orders verdict before cost.
    private const double MarginalStep = 1e15;

    /// <summary>Verdict and cost as one number.</summary>
    public static double KeyOf(bool marginal, double cost) => marginal ? MarginalStep + cost : cost;

    /// <summary>Bounds of pairs, in their order.</summary>
    public static CostBound[] Of(ReadOnlySpan<UnbrokenPair> pairs, PairCosts costs)
    {
        var bounds = new CostBound[pairs.Length];
        for (var i = 0; i < bounds.Length; i++)
            bounds[i] = Anew(costs, costs.Of(pairs[i].Pair, pairs[i].Marginals));
        return bounds;
    }

    /// <summary>
    /// Bounds of the pairs of a varied asset. What the variation does not touch is taken over: the bound, or at least the
    /// re-applications behind it.
    /// </summary>
    /// <param name="bounds">Takes the bounds, one for each of <paramref name="pairs"/>.</param>
    /// <param name="pairs">Pairs that break no rule on the varied asset, in the order of the catalogue.</param>
    /// <param name="costs">Their costs.</param>
    /// <param name="before">Bounds on the asset that was varied, in the order of the catalogue.</param>
    /// <param name="costsBefore">The costs there.</param>
    public static void Vary(
        Span<CostBound> bounds, ReadOnlySpan<UnbrokenPair> pairs, PairCosts costs, ReadOnlySpan<CostBound> before, PairCosts costsBefore)
    {
        if (!costs.RenewsLike(costsBefore))
            before = [];
        bool paysAsBefore = costs.PaysLike(costsBefore), fixesAsBefore = costs.FixesLike(costsBefore);
        for (int i = 0, next = 0; i < pairs.Length; i++)
        {
            // Both lists are in the same order: they are walked side by side.
            while (next < before.Length && before[next].Cost.Pair < pairs[i].Pair)
                next++;
            if (next == before.Length || before[next].Cost.Pair != pairs[i].Pair || before[next].Cost.Marginals != pairs[i].Marginals)
            {
                bounds[i] = Anew(costs, costs.Of(pairs[i].Pair, pairs[i].Marginals));
                continue;
            }

            var minutes = fixesAsBefore ? before[next].Cost.Minutes : costs.MinutesOf(pairs[i].Pair);
            bounds[i] = paysAsBefore && minutes == before[next].Cost.Minutes
                ? before[next] with { IsKept = true }
                : Anew(costs, before[next].Cost with { Minutes = minutes });
        }
    }

    /// <summary>Takes the keys of bounds, to be struck out with NaN one by one.</summary>
    public static void CopyKeys(ReadOnlySpan<CostBound> bounds, Span<double> keys)
    {
        for (var i = 0; i < keys.Length; i++)
            keys[i] = bounds[i].Key;
    }

    /// <summary>Index of the least key; -1 when only NaN are left.</summary>
    public static int Least(ReadOnlySpan<double> keys)
    {
        var least = -1;
        var key = double.PositiveInfinity;
        for (var i = 0; i < keys.Length; i++)
        {
            if (keys[i] < key)
                (least, key) = (i, keys[i]);
        }

        return least;
    }

    private static CostBound Anew(PairCosts costs, in PairCost cost) =>
        new(cost, KeyOf(cost.Marginals > 0, costs.Least(cost)), false);
}
