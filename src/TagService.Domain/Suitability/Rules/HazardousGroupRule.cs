using System.Runtime.CompilerServices;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>The certificate's gas or dust group covers the zone's. An unstated group counts as the most demanding.</summary>
/// <remarks>Source: IEC 60079-0, groups (from memory); the site's competent person decides.</remarks>
internal sealed class HazardousGroupRule() : SuitabilityRule("hazardous-group", "explosive-atmosphere", RuleScope.TagClass, AssetFields.HazardousArea)
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        // Without a certificate the level rule has already failed: there is no second value to compare.
        if (c.Asset.HazardousArea is not { } area || c.TagClass.Certificate is not { } certificate)
            return RuleFinding.Pass;
        var needed = area.Group ?? (ExplosiveAtmosphere.IsDust(area.Zone) ? "IIIC" : "IIC");
        return ExplosiveAtmosphere.GroupHolds(certificate.Group, needed)
            ? RuleFinding.Pass
            : new(RuleVerdict.Fail, RuleValue.Of(needed), RuleValue.Of(certificate.Group));
    }

    public override RuleVerdict Judge(in SuitabilityCase c) => Evaluate(c).Verdict;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The zone needs group {finding.Needed}{(c.Asset.HazardousArea?.Group is null ? " (none stated: the most demanding is assumed)" : "")}; the certificate says {finding.Offered}.";
}
