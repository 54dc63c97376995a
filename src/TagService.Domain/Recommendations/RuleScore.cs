using TagService.Domain.Suitability;

namespace TagService.Domain.Recommendations;

/// <summary>How many rules are broken and how many only just hold.</summary>
internal readonly record struct RuleScore(int Fails, int Marginals)
{
    public static RuleScore operator +(RuleScore a, RuleScore b) => new(a.Fails + b.Fails, a.Marginals + b.Marginals);

    /// <summary>One verdict as a score, counted <paramref name="sign"/> times.</summary>
    public static RuleScore Of(RuleVerdict verdict, int sign) => verdict switch
    {
        RuleVerdict.Fail => new(sign, 0),
        RuleVerdict.Marginal => new(0, sign),
        _ => default,
    };
}
