using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// An adhesive wets a surface whose energy is high enough for it. Below about 36 mN/m a surface counts as low-energy
/// and needs a low-energy adhesive, a primer or a mechanical fixing.
/// </summary>
/// <remarks>
/// Source: working bands (below 36 low, 36 to 300 medium, above 300 high; read), survey values of polymers (read).
/// The usual value must reach the adhesive's minimum; where the low end of the band falls short of it by more than one
/// step of test inks (2 mN/m, common practice) the result is marginal: test it on the spot.
/// </remarks>
internal sealed class SurfaceEnergyRule() : SuitabilityRule("surface-energy", "attachment", RuleScope.Method, AssetFields.Coating | AssetFields.Material)
{
    private const double TestInkStepMnPerM = 2;
    private const string Unit = "mN/m";

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        if (c.Method.Adhesive is not { } adhesive)
            return RuleFinding.Pass;
        var minimum = RuleValue.Of(adhesive.MinSurfaceEnergyMnPerM, Unit);
        // What must come off anyway (oil, rust, loose paint) does not count: the ground below does.
        var coating = c.Asset.Coating.MustBeRemoved ? null : c.Asset.Coating.SurfaceEnergyMnPerM;
        return (coating ?? c.Asset.Material.SurfaceEnergyMnPerM) is { } energy
            ? new(Judge(energy, adhesive.MinSurfaceEnergyMnPerM), RuleValue.Of(energy.Usual, Unit), minimum)
            : new(RuleVerdict.Fail, RuleValue.Of("no surface for adhesives"), minimum);
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) => finding switch
    {
        { Needed.Number: null } => $"There is {finding.Needed} here; the adhesive needs {finding.Offered}.",
        { Verdict: RuleVerdict.Fail } =>
            $"The surface energy is about {finding.Needed}; this adhesive needs {finding.Offered}: use an adhesive for low-energy surfaces, a primer or a mechanical fixing.",
        _ => $"The surface energy is usually {finding.Needed} but can be lower than the {finding.Offered} this adhesive needs: test it on the spot.",
    };

    private static RuleVerdict Judge(SurfaceEnergyBand energy, double minimum) =>
        energy.Usual < minimum ? RuleVerdict.Fail
        : energy.Low < minimum - TestInkStepMnPerM ? RuleVerdict.Marginal
        : RuleVerdict.Pass;
}
