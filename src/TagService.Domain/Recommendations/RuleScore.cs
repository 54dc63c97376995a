namespace TagService.Domain.Recommendations;

/// <summary>How many rules are broken and how many only just hold.</summary>
internal readonly record struct RuleScore(int Fails, int Marginals);
