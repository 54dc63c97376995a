using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// The certificate's temperature class stays below the ignition temperature of the gas. An unstated class counts as
/// T6. Dust has ignition temperatures of its own: marginal, to be compared on site.
/// </summary>
/// <remarks>Source: IEC 60079-0, temperature classes (from memory); the site's competent person decides.</remarks>
internal sealed class HazardousTemperatureClassRule()
    : SuitabilityRule("hazardous-temperature-class", "explosive-atmosphere", RuleScope.TagClass, AssetFields.HazardousArea)
{
    private const string DustNeed = "a surface temperature below the dust's ignition temperature";

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        if (c.Asset.HazardousArea is not { } area || c.TagClass.Certificate is not { } certificate)
            return RuleFinding.Pass;
        if (ExplosiveAtmosphere.IsDust(area.Zone))
            return new(RuleVerdict.Marginal, RuleValue.Of(DustNeed), RuleValue.Of(certificate.TemperatureClass));
        var needed = area.TemperatureClass ?? "T6";
        // An unread class of the certificate gives no limit and so does not hold.
        var holds = ExplosiveAtmosphere.SurfaceLimitC(certificate.TemperatureClass) <= ExplosiveAtmosphere.SurfaceLimitC(needed);
        return holds
            ? RuleFinding.Pass
            : new(RuleVerdict.Fail, RuleValue.Of(needed), RuleValue.Of(certificate.TemperatureClass));
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        finding.Verdict == RuleVerdict.Marginal
            ? $"The zone needs {finding.Needed}; the certificate says {finding.Offered}: the competent person compares them."
            : $"The zone needs temperature class {finding.Needed}; the certificate says {finding.Offered}.";
}
