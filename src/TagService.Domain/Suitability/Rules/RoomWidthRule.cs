using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The tag's shorter side with the fixing's free margin fits the shorter free side: either orientation is allowed.</summary>
/// <remarks>Source: geometry; a tag that fits only without its margin is marginal (common practice).</remarks>
internal sealed class RoomWidthRule() : SuitabilityRule("room-width", "room", RuleScope.Both, AssetFields.LengthMm | AssetFields.WidthMm)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        RoomFit.Judge(Math.Min(c.Asset.LengthMm, c.Asset.WidthMm), Footprint.ShortMm(c), 2 * c.Method.MarginMm);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        finding.Verdict == RuleVerdict.Fail
            ? $"The place is {finding.Needed} wide; tag and fixing take {finding.Offered}."
            : $"The place is {finding.Needed} wide: the tag fits, but with its free margin it would take {finding.Offered}.";
}
