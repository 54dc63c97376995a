using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// In an explosive atmosphere only a tag class with a certificate on record passes, and its equipment protection
/// level must hold for the zone.
/// </summary>
/// <remarks>Source: IEC 60079-14, levels by zone (from memory); the site's competent person decides.</remarks>
internal sealed class HazardousAreaRule() : SuitabilityRule("hazardous-area", "explosive-atmosphere", RuleScope.TagClass, AssetFields.HazardousArea)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        if (c.Asset.HazardousArea is not { } area)
            return RuleFinding.Pass;
        var needed = ExplosiveAtmosphere.LevelFor(area.Zone);
        if (c.TagClass.Certificate is not { } certificate)
            return new(RuleVerdict.Fail, RuleValue.Of(needed), RuleValue.Of("no certificate on record"));
        return ExplosiveAtmosphere.LevelHolds(certificate.EquipmentProtectionLevel, needed)
            ? RuleFinding.Pass
            : new(RuleVerdict.Fail, RuleValue.Of(needed), RuleValue.Of(certificate.EquipmentProtectionLevel));
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"Zone {c.Asset.HazardousArea?.Zone} asks for equipment protection level {finding.Needed}; the tag class has {finding.Offered}. The site's competent person decides.";
}
