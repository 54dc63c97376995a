using System.Runtime.CompilerServices;
using System.Globalization;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// A certificate that has ended does not count. When it ends and no day of judgement is given, the result is marginal.
/// </summary>
/// <remarks>Source: common practice of certificates; the site's competent person decides.</remarks>
internal sealed class HazardousCertificateDateRule()
    : SuitabilityRule("hazardous-certificate-date", "explosive-atmosphere", RuleScope.TagClass, AssetFields.HazardousArea)
{
    private const string Held = "a certificate that has ended";
    private const string Unchecked = "a certificate whose end was not checked";

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        if (c.Asset.HazardousArea is null || c.TagClass.Certificate?.ValidUntil is not { } until)
            return RuleFinding.Pass;
        if (c.AsOf is not { } day)
            return new(RuleVerdict.Marginal, RuleValue.Of("a certificate in force"), RuleValue.Of(Unchecked));
        return day <= until
            ? RuleFinding.Pass
            : new(RuleVerdict.Fail, RuleValue.Of("a certificate in force"), RuleValue.Of(Held));
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) => string.Create(
        CultureInfo.InvariantCulture,
        $"The zone needs {finding.Needed}; the tag class has {finding.Offered} (valid until {c.TagClass.Certificate?.ValidUntil:yyyy-MM-dd}).");
}
