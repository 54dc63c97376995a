using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Reliability;

/// <summary>Expected life of one attachment and what it rests on.</summary>
/// <param name="Distribution">Weibull life.</param>
/// <param name="EquivalentFailures">How many observed failures the estimate is worth.</param>
/// <param name="Severity">Factor on the failure rate against a heated office.</param>
public readonly record struct LifeEstimate(Weibull Distribution, double EquivalentFailures, double Severity)
{
    /// <summary>Standard deviation of ln(scale): 1 / (b sqrt(n)), the large-sample error of a Weibull scale from n
    /// failures at known shape (Nelson, Applied Life Data Analysis, 1982, ch. 8, from memory).</summary>
    public double LogScaleSigma => 1 / (Distribution.Shape * Math.Sqrt(EquivalentFailures));
}

/// <summary>
/// Life priors by class, fixing and severity of the surroundings: planning values until the fleet's own lifetimes
/// take over. Scale = class scale x fixing factor x 0.8 per marginal rule / severity.
/// </summary>
public static class LifePriors
{
    /// <summary>What a rule that only just holds does to the life scale: planning value, common practice.</summary>
    public const double MarginalFactor = 0.8;

    /// <summary>The prior of one candidate.</summary>
    /// <param name="tagClass">Tag class.</param>
    /// <param name="method">Fixing.</param>
    /// <param name="severity">From <see cref="Severity"/>, at least 1.</param>
    /// <param name="marginalRules">How many rules only just hold.</param>
    public static LifeEstimate For(TagClass tagClass, AttachmentMethod method, double severity, int marginalRules)
    {
        var scale = tagClass.Life.ScaleYears * method.LifeFactor / severity;
        for (var i = 0; i < marginalRules; i++)
            scale *= MarginalFactor;
        return new(new Weibull(tagClass.Life.Shape, scale), tagClass.Life.EquivalentFailures, severity);
    }

    /// <summary>
    /// Factor on the failure rate against a heated office: the setting's own factor, times how much rougher than that
    /// setting's usual the asset is handled, bent and picked at. Planning values, common practice; never below 1.
    /// </summary>
    public static double Severity(ResolvedAsset asset, SettingRow setting)
    {
        var usual = setting.Environment;
        var factor = setting.Severity
            * Degree(asset.Abrasion) / Degree(usual.Abrasion ?? Level.None)
            * Degree(asset.Flexing) / Degree(usual.Flexing ?? Level.None)
            * Degree(asset.TamperRisk) / Degree(usual.TamperRisk ?? Level.None);
        return Math.Max(1, factor);
    }

    private static double Degree(Level level) => level switch
    {
        Level.None => 1,
        Level.Low => 1.1,
        Level.Medium => 1.4,
        _ => 2,
    };
}
