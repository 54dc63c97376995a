using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The IP codes asked for name a protection against dust and objects that the tag holds.</summary>
/// <remarks>Source: IEC 60529 first numeral (secondary).</remarks>
internal sealed class DustRule() : SuitabilityRule("dust", "dust", RuleScope.TagClass, AssetFields.IpRequired)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        Judge(c.Asset.IpDemand.Solids, c.TagClass.Limits.Ip);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The place asks for {finding.Needed} against dust and objects; the tag holds {finding.Offered}.";

    private static RuleFinding Judge(int solids, IpSet held) =>
        solids <= held.Solids
            ? RuleFinding.Pass
            : new(RuleVerdict.Fail, RuleValue.Of(IpCode.NameOf(solids, 0)), RuleValue.Of(held.Name));
}
