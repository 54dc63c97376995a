namespace TagService.Domain.Recommendations;

/// <summary>The best few of the classes seen that fit, each with its best fixing, in the order of <see cref="ClassEvaluation.CompareTo"/>.</summary>
/// <param name="most">How many are wanted.</param>
internal sealed class BestClasses(int most)
{
    private readonly List<ClassEvaluation> _best = new(most + 1);

    /// <summary>The best of all.</summary>
    public ClassEvaluation? First => _best.Count == 0 ? null : _best[0];

    /// <summary>Are as many there as are wanted?</summary>
    public bool AreAll => _best.Count == most;

    /// <summary>Verdict and cost, as <see cref="CostBounds.KeyOf"/> makes it, of the last of them: beyond it nothing can come in.</summary>
    public double WorstKey { get; private set; } = double.PositiveInfinity;

    /// <summary>Takes in a class that fits, with one of its fixings, if it is good enough.</summary>
    public void Add(in ClassEvaluation evaluation)
    {
        var tagClass = evaluation.TagClass;
        var known = _best.FindIndex(e => ReferenceEquals(e.TagClass, tagClass));
        if (known >= 0)
        {
            if (!IsBetter(evaluation, _best[known]))
                return;
            _best.RemoveAt(known);
        }

        var at = _best.Count;
        while (at > 0 && evaluation.CompareTo(_best[at - 1]) < 0)
            at--;
        _best.Insert(at, evaluation);
        if (_best.Count > most)
            _best.RemoveAt(most);
        if (AreAll)
            WorstKey = CostBounds.KeyOf(_best[^1].Verdict == CandidateVerdict.Marginal, _best[^1].Cost);
    }

    /// <summary>All of them, best first.</summary>
    public ClassEvaluation[] ToArray() => [.. _best];

    // Of two fixings that cost the same the one that the class names first.
    private static bool IsBetter(in ClassEvaluation one, in ClassEvaluation other)
    {
        var order = one.CompareTo(other);
        return order < 0 || (order == 0 && one.PairCost.Pair < other.PairCost.Pair);
    }
}
