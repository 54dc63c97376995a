using TagService.Domain.Recommendations;

namespace TagService.Domain.Suitability.Rules;

/// <summary>
/// Every water level asked for is held. Levels are a set: up to 6 a level implies the lower ones; immersion (7, 8)
/// and hot jets (9) do not imply jets (5, 6).
/// </summary>
/// <remarks>Source: IEC 60529 second numeral (secondary).</remarks>
internal sealed class WaterRule() : SuitabilityRule("water", "water", RuleScope.TagClass, AssetFields.IpRequired)
{
    private const string Unread = "an IP code that does not read";

    public override RuleFinding Evaluate(in SuitabilityCase c)
    {
        var worst = RuleFinding.Pass;
        var required = c.Asset.IpRequired;
        var held = c.TagClass.Limits.Ip;
        for (var i = 0; i < required.Count; i++)
        {
            if (!IpCode.TryParse(required[i], out var code))
            {
                if (worst.Verdict == RuleVerdict.Pass)
                    worst = new(RuleVerdict.Marginal, RuleValue.Of(Unread), RuleValue.Of(held.Name));
            }
            else if (!held.HasWater(code.Water))
            {
                return new(RuleVerdict.Fail, RuleValue.Of(code.Name), RuleValue.Of(held.Name));
            }
        }

        return worst;
    }

    public override RuleVerdict Judge(in SuitabilityCase c) =>
        !c.TagClass.Limits.Ip.HasAllWater(c.Asset.IpDemand.WaterLevels) ? RuleVerdict.Fail
        : c.Asset.IpDemand.HasUnread ? RuleVerdict.Marginal
        : RuleVerdict.Pass;

    public override string Explain(in SuitabilityCase c, in RuleFinding finding) =>
        $"The place asks for {finding.Needed} against water; the tag holds {finding.Offered} (7, 8 and 9 do not imply the jets of 5 and 6).";
}
