using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Further data fits the tag; on an HF tag beside the identity, which lies in the same memory.</summary>
/// <remarks>Source: ISO/IEC 18000-63 (user memory is a bank of its own); common practice for HF.</remarks>
internal sealed class UserMemoryRule() : SuitabilityRule("user-memory", "memory", RuleScope.TagClass, AssetFields.UserMemoryBits | AssetFields.EpcBits)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) => Compare.NotAbove(
        c.Asset.UserMemoryBits == 0 ? 0 : c.Asset.UserMemoryBits + (c.TagClass.Technology == TagTechnology.Uhf ? 0 : c.Asset.EpcBits),
        c.TagClass.Memory.UserBits, 0, "bits");

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"Further data needs {finding.Needed}{(c.TagClass.Technology == TagTechnology.Uhf ? "" : " with the identity")}; the tag keeps {finding.Offered}.";
}
