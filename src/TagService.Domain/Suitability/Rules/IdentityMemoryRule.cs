using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The identity fits the tag: the EPC memory of a UHF tag; the data memory of an HF tag, which has no EPC memory.</summary>
/// <remarks>
/// Source: GS1 EPC Tag Data Standard 2.3, table 14-1 (lengths of the schemes); ISO/IEC 18000-63 (EPC memory in words of 16 bits).
/// </remarks>
internal sealed class IdentityMemoryRule() : SuitabilityRule("identity-memory", "memory", RuleScope.TagClass, AssetFields.EpcBits)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        var memory = c.TagClass.Memory;
        // Memory comes in words: 202 bits take 208.
        return Compare.NotAbove(
            (c.Asset.EpcBits + 15) / 16 * 16, c.TagClass.Technology == TagTechnology.Uhf ? memory.EpcBits : memory.UserBits, 0, "bits");
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The identity needs {finding.Needed}; the tag holds {finding.Offered}.";
}
