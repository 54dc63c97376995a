namespace TagService.Domain.Recommendations;

/// <summary>How many rules are broken and how many only just hold.</summary>
internal readonly record struct RuleScore(int Fails, int Marginals);

/// <summary>A pair of class and fixing that breaks no rule.</summary>
/// <param name="Pair">Index of the pair.</param>
/// <param name="Marginals">Rules that only just hold.</param>
internal readonly record struct UnbrokenPair(int Pair, int Marginals);
