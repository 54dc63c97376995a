using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag's longer side with the fixing's free margin fits the longer free side: either orientation is allowed.</summary>
/// <remarks>Source: geometry; a tag that fits only without its margin is marginal (common practice).</remarks>
internal sealed class RoomLengthRule() : SuitabilityRule("room-length", "room", RuleScope.Both, AssetFields.LengthMm | AssetFields.WidthMm)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        RoomFit.Judge(Math.Max(c.Asset.LengthMm, c.Asset.WidthMm), Footprint.LongMm(c), 2 * c.Method.MarginMm);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        finding.Verdict == RuleVerdict.Fail
            ? $"The place is {finding.Needed} long; tag and fixing take {finding.Offered}."
            : $"The place is {finding.Needed} long: the tag fits, but with its free margin it would take {finding.Offered}.";
}
