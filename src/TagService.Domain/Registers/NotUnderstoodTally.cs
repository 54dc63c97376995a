namespace TagService.Domain.Registers;

/// <summary>Counts the values of a run that were not understood or not recognised, so that one look shows what to add to a value table.</summary>
public sealed class NotUnderstoodTally
{
    /// <summary>Most different values kept; further ones only count in <see cref="NotListed"/>.</summary>
    public const int MostListed = 1000;

    private readonly Dictionary<(RowProblemKind Kind, string Field, string Value), (RowProblem First, long Count)> _counts = [];

    /// <summary>Problems whose value is not listed because there are too many different ones.</summary>
    public long NotListed { get; private set; }

    /// <summary>Rows counted.</summary>
    public long Rows { get; private set; }

    /// <summary>Rows refused among them.</summary>
    public long Refused { get; private set; }

    /// <summary>The values, most frequent first.</summary>
    public IReadOnlyList<(RowProblem Problem, long Count)> Listed =>
        [.. _counts.Values.OrderByDescending(c => c.Count).ThenBy(c => c.First.Field, StringComparer.Ordinal).ThenBy(c => c.First.Value, StringComparer.Ordinal)];

    /// <summary>Counts what one row came to.</summary>
    public void Add(RowMapping mapping)
    {
        Rows++;
        if (mapping is RowRefusal)
            Refused++;
        foreach (var problem in mapping.Problems)
        {
            var key = (problem.Kind, problem.Field, problem.Value);
            if (_counts.TryGetValue(key, out var c))
                _counts[key] = (c.First, c.Count + 1);
            else if (_counts.Count < MostListed)
                _counts.Add(key, (problem, 1));
            else
                NotListed++;
        }
    }
}
