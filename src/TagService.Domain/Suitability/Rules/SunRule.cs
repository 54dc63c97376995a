using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The face bears the years of full sun within the asset's life; up to twice as many shorten its life.</summary>
/// <remarks>Source: planning value, common practice.</remarks>
internal sealed class SunRule() : SuitabilityRule("sun", "sun", RuleScope.TagClass, AssetFields.UvYears)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Compare.Dose(c.Asset.UvYears, c.TagClass.Limits.UvYears, "years");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The tag will see {finding.Needed} of full sun; its face is made for {finding.Offered}.";
}
