using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Where writing must be guarded, the tag has a password for it.</summary>
/// <remarks>Source: ISO/IEC 18000-63 (access password and lock); common practice for HF.</remarks>
internal sealed class AccessPasswordRule() : SuitabilityRule("access-password", "memory", RuleScope.TagClass, AssetFields.AccessPassword)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        c.Asset.AccessPassword && !c.TagClass.Memory.AccessPassword
            ? new(RuleVerdict.Fail, RuleValue.Of("a password against writing"), RuleValue.Of("none"))
            : RuleFinding.Pass;

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The asset's identity needs {finding.Needed}; the tag has {finding.Offered}.";
}
