using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>A printed code or human-readable number needs a face that can be printed.</summary>
/// <remarks>Source: common practice.</remarks>
internal sealed class LegibilityRule() : SuitabilityRule("legibility", "legibility", RuleScope.TagClass, AssetFields.NeedsPrint)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Asset.NeedsPrint && !c.TagClass.Limits.Printable
            ? new(RuleVerdict.Fail, RuleValue.Of("a printed code or number"), RuleValue.Of("no printable face"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset needs {finding.Needed}; the tag has {finding.Offered}.";
}
