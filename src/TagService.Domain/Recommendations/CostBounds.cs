namespace TagService.Domain.Recommendations;

/// <summary>
/// The pairs that break no rule, each with a lower bound of its cost. A varied asset takes over what its variation does not touch:
/// the bound, or at least the re-applications behind it.
/// </summary>
internal sealed class CostBounds
{
    // Added to the cost of pairs that can be marginal at best, so that one number orders verdict before cost.
    private const double MarginalStep = 1e15;

    private readonly List<Bound> _bounds = new(32);

    /// <summary>Bounds of the pairs of a catalogue.</summary>
    /// <param name="catalogue">The catalogue.</param>
    /// <param name="scores">Scores of the rules.</param>
    /// <param name="costs">Costs of the pairs.</param>
    /// <param name="before">Bounds and costs of the asset that was varied, if this is a variation.</param>
    public CostBounds(CompiledCatalogue catalogue, RuleScores scores, PairCosts costs, (CostBounds Bounds, PairCosts Costs)? before)
    {
        var known = before is { } b && costs.RenewsLike(b.Costs) ? b.Bounds._bounds : null;
        var samePay = known is not null && costs.PaysLike(before!.Value.Costs);
        var next = 0;
        for (var tagClass = 0; tagClass < catalogue.Classes.Length; tagClass++)
        {
            if (scores.IsClassOut(tagClass))
                continue;
            for (var pair = catalogue.FirstPair[tagClass]; pair < catalogue.FirstPair[tagClass + 1]; pair++)
            {
                if (scores.IsPairOut(pair))
                    continue;
                var marginals = scores.Of(pair).Marginals;
                // Both lists are in the order of the catalogue: they are walked side by side.
                while (next < known?.Count && known[next].Cost.Pair < pair)
                    next++;
                _bounds.Add(next < known?.Count && known[next].Cost.Pair == pair && known[next].Cost.Marginals == marginals
                    ? Again(costs, known[next], samePay)
                    : Anew(costs, costs.Of(pair, marginals)));
            }
        }
    }

    /// <summary>A pair with its bound, as <see cref="KeyOf"/> makes it.</summary>
    internal readonly record struct Bound(PairCost Cost, double Key);

    /// <summary>The pairs, in the order of the catalogue.</summary>
    public IReadOnlyList<Bound> All => _bounds;

    /// <summary>Verdict and cost as one number.</summary>
    public static double KeyOf(bool marginal, double cost) => marginal ? MarginalStep + cost : cost;

    private static Bound Anew(PairCosts costs, in PairCost cost) => new(cost, KeyOf(cost.Marginals > 0, costs.Least(cost)));

    private static Bound Again(PairCosts costs, in Bound known, bool samePay)
    {
        var minutes = costs.MinutesOf(known.Cost.Pair);
        return samePay && minutes == known.Cost.Minutes ? known : Anew(costs, known.Cost with { Minutes = minutes });
    }
}
