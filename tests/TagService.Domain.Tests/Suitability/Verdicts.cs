using TagService.Domain.Suitability;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Verdicts of several rules together.</summary>
internal static class Verdicts
{
    /// <summary>The worst verdict that some rules give; allocates nothing itself, because a test counts what the rules allocate.</summary>
    public static RuleVerdict Worst(in SuitabilityCase c, IReadOnlyList<ISuitabilityRule> rules)
    {
        var worst = RuleVerdict.Pass;
        for (var i = 0; i < rules.Count; i++)
        {
            var verdict = rules[i].Evaluate(c).Verdict;
            if (verdict > worst)
                worst = verdict;
        }

        return worst;
    }
}
