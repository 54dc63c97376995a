using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// On curved surfaces flexible tags need at least their bend radius; rigid ones lie with the long side along the axis
/// and need a radius at which the gap at their edges closes: within the bond line, or what a saddle or washer bridges.
/// </summary>
/// <remarks>Source: geometry (sagitta of a chord); the gaps that are bridged are planning values, common practice.</remarks>
internal sealed class CurvatureRule() : SuitabilityRule("curvature", "room", RuleScope.Both, AssetFields.CurvatureRadiusMm)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        var radiusMm = c.Asset.CurvatureRadiusMm;
        if (radiusMm <= 0)
            return RuleFinding.Pass;
        var widthMm = Math.Min(c.TagClass.Size.LengthMm, c.TagClass.Size.WidthMm);
        var bend = c.TagClass.Limits.MinBendRadiusMm;
        return c.Method.Kind switch
        {
            AttachmentKind.Hang or AttachmentKind.Animal or AttachmentKind.Sew or AttachmentKind.Embed => RuleFinding.Pass,
            AttachmentKind.Adhesive when bend is { } bendMm => Judge(radiusMm, bendMm, 1.25 * bendMm),
            _ when bend is not null => RuleFinding.Pass,
            AttachmentKind.Adhesive => Gaps(radiusMm, widthMm, c.Method.AddedStandoffMm, c.Method.AddedStandoffMm / 2),
            AttachmentKind.Strap or AttachmentKind.Tie => Gaps(radiusMm, widthMm, double.PositiveInfinity, 5),
            AttachmentKind.Nail when Footprint.DepthMm(c) > 0 => RuleFinding.Pass,
            _ => Gaps(radiusMm, widthMm, 2, 0.5),
        };
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        c.TagClass.Limits.MinBendRadiusMm is not null
            ? $"The surface is curved with a radius of {finding.Needed}; the tag bends without strain to {finding.Offered}."
            : $"The surface is curved with a radius of {finding.Needed}; the rigid tag sits well with this fixing from {finding.Offered}.";

    private static RuleFinding Gaps(double radiusMm, double widthMm, double widestMm, double easyMm) =>
        Judge(
            radiusMm,
            double.IsInfinity(widestMm) ? 0 : Curvature.SmallestRadiusMm(widthMm, widestMm),
            Curvature.SmallestRadiusMm(widthMm, easyMm));

    private static RuleFinding Judge(double radiusMm, double leastMm, double easyMm) =>
        new(
            radiusMm >= easyMm ? RuleVerdict.Pass : radiusMm >= leastMm ? RuleVerdict.Marginal : RuleVerdict.Fail,
            RuleValue.Of(radiusMm, "mm"),
            RuleValue.Of(radiusMm >= leastMm ? easyMm : leastMm, "mm"));
}
