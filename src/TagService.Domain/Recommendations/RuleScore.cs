using TagService.Domain.Suitability;

namespace TagService.Domain.Recommendations;

/// <summary>How many rules are broken and how many only just hold.</summary>
internal readonly record struct RuleScore(int Fails, int Marginals)
{
    public static RuleScore operator +(RuleScore a, RuleScore b) => new(a.Fails + b.Fails, a.Marginals + b.Marginals);

    public static RuleScore Of(in SuitabilityCase c, IReadOnlyList<ISuitabilityRule> rules)
    {
        int fails = 0, marginals = 0;
        for (var i = 0; i < rules.Count; i++)
        {
            var verdict = rules[i].Evaluate(c).Verdict;
            if (verdict == RuleVerdict.Fail)
                fails++;
            else if (verdict == RuleVerdict.Marginal)
                marginals++;
        }

        return new(fails, marginals);
    }
}
