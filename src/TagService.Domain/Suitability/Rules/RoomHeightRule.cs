using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>Tag and fixing stay below the greatest height that disturbs nobody.</summary>
/// <remarks>Source: geometry.</remarks>
internal sealed class RoomHeightRule() : SuitabilityRule("room-height", "room", RuleScope.Both, AssetFields.MaxHeightMm)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c) =>
        RoomFit.Judge(c.Asset.MaxHeightMm, Footprint.HeightMm(c), 0);

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"At most {finding.Needed} may stand above the surface; tag and fixing stand {finding.Offered} high.";
}
