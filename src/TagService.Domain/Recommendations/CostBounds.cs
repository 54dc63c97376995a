namespace TagService.Domain.Recommendations;

/// <summary>
/// The pairs that break no rule, each with a lower bound of its cost. A varied asset takes over what its variation does not touch:
/// the bound, or at least the re-applications behind it.
/// </summary>
internal sealed class CostBounds
{
    // Added to the cost of pairs that can be marginal at best, so that one number orders verdict before cost.
    private const double MarginalStep = 1e15;

    private readonly Bound[] _bounds;

    /// <summary>Bounds of the pairs that break no rule.</summary>
    /// <param name="scores">Scores of the rules.</param>
    /// <param name="costs">Costs of the pairs.</param>
    /// <param name="before">Bounds and costs of the asset that was varied, if this is a variation.</param>
    public CostBounds(RuleScores scores, PairCosts costs, (CostBounds Bounds, PairCosts Costs)? before = null)
    {
        ReadOnlySpan<Bound> known = before is { } b && costs.RenewsLike(b.Costs) ? b.Bounds._bounds : [];
        var paysAsBefore = !known.IsEmpty && costs.PaysLike(before!.Value.Costs);
        var fixesAsBefore = !known.IsEmpty && costs.FixesLike(before!.Value.Costs);
        var pairs = scores.Unbroken;
        _bounds = new Bound[pairs.Length];
        for (int i = 0, next = 0; i < pairs.Length; i++)
        {
            // Both lists are in the order of the catalogue: they are walked side by side.
            while (next < known.Length && known[next].Cost.Pair < pairs[i].Pair)
                next++;
            _bounds[i] = next < known.Length && known[next].Cost.Pair == pairs[i].Pair && known[next].Cost.Marginals == pairs[i].Marginals
                ? Again(costs, known[next], paysAsBefore, fixesAsBefore)
                : Anew(costs, costs.Of(pairs[i].Pair, pairs[i].Marginals));
        }
    }

    /// <summary>The pairs, in the order of the catalogue.</summary>
    public ReadOnlySpan<Bound> All => _bounds;

    /// <summary>Verdict and cost as one number.</summary>
    public static double KeyOf(bool marginal, double cost) => marginal ? MarginalStep + cost : cost;

    private static Bound Anew(PairCosts costs, in PairCost cost) =>
        new(cost, KeyOf(cost.Marginals > 0, costs.Least(cost)), false);

    private static Bound Again(PairCosts costs, in Bound known, bool paysAsBefore, bool fixesAsBefore)
    {
        var minutes = fixesAsBefore ? known.Cost.Minutes : costs.MinutesOf(known.Cost.Pair);
        return paysAsBefore && minutes == known.Cost.Minutes
            ? known with { IsKept = true }
            : Anew(costs, known.Cost with { Minutes = minutes });
    }

    /// <summary>One pair.</summary>
    /// <param name="Cost">What its cost depends on beside the range.</param>
    /// <param name="Key">The bound, as <see cref="KeyOf"/> makes it.</param>
    /// <param name="IsKept">The pair is judged and, at the same range, costs as on the asset that was varied.</param>
    internal readonly record struct Bound(PairCost Cost, double Key, bool IsKept);
}
