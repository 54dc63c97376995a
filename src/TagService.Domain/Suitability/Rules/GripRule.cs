using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// Ties, bands, cords and flags go round or through something. On a surface that is flat or too large for them the
/// result is marginal: the fitter must find a pipe, handle, rail or eye.
/// </summary>
/// <remarks>Source: common practice; the radii are planning values of the attachment methods.</remarks>
internal sealed class GripRule() : SuitabilityRule("grip", "attachment", RuleScope.Method, AssetFields.CurvatureRadiusMm)
{
    private const string Flat = "flat surface";

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        if (c.Method.GripRadiusMm is not { } largestMm)
            return RuleFinding.Pass;
        var radiusMm = c.Asset.CurvatureRadiusMm;
        if (radiusMm > 0 && radiusMm <= largestMm)
            return RuleFinding.Pass;
        return new(
            RuleVerdict.Marginal,
            radiusMm > 0 ? RuleValue.Of(radiusMm, "mm") : RuleValue.Of(Flat),
            RuleValue.Of(largestMm, "mm"));
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        finding.Needed.Text == Flat
            ? $"The place is a {finding.Needed}; this fixing goes round something of up to {finding.Offered} radius: find a pipe, handle, rail or eye."
            : $"The place has a radius of {finding.Needed}; this fixing goes round up to {finding.Offered}: find a handle, rail or eye.";
}
