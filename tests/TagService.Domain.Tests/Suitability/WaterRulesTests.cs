using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Water, dust and impact on whole cases.</summary>
public sealed class WaterRulesTests
{
    [Theory]
    // IEC 60529: an immersible housing is not a jet-proof one, and the other way round.
    [InlineData("IP68", "IP66", RuleVerdict.Fail)]
    [InlineData("IP66", "IP67", RuleVerdict.Fail)]
    [InlineData("IP66", "IP65", RuleVerdict.Pass)]
    [InlineData("IP68", "IP67", RuleVerdict.Pass)]
    [InlineData("IP67", "IP44", RuleVerdict.Pass)]
    public void Water_HeldAgainstAskedFor_FollowsTheStandard(string held, string asked, RuleVerdict verdict)
    {
        var tagClass = TagClassCatalogue.BuiltIn.All[0];
        tagClass = tagClass with { Limits = tagClass.Limits with { IpCodes = [held] } };
        var c = new SuitabilityCase(TestAssets.Benign() with { IpRequired = [asked] }, tagClass, AttachmentMethods.All[0]);
        Assert.Equal(verdict, Rule("water").Evaluate(c).Verdict);
    }

    [Theory]
    // IEC 60529 first numeral: 6 dust-tight covers 5 dust-protected, not the other way round.
    [InlineData("IP65", "IP55", RuleVerdict.Pass)]
    [InlineData("IP55", "IP65", RuleVerdict.Fail)]
    public void Dust_HeldAgainstAskedFor_FollowsTheStandard(string held, string asked, RuleVerdict verdict)
    {
        var tagClass = TagClassCatalogue.BuiltIn.All[0];
        tagClass = tagClass with { Limits = tagClass.Limits with { IpCodes = [held] } };
        var c = new SuitabilityCase(TestAssets.Benign() with { IpRequired = [asked] }, tagClass, AttachmentMethods.All[0]);
        Assert.Equal(verdict, Rule("dust").Evaluate(c).Verdict);
    }

    [Fact]
    public void Water_CodeThatDoesNotRead_IsMarginalAndSaysSo()
    {
        var c = new SuitabilityCase(
            TestAssets.Benign() with { IpRequired = ["splashproof"] }, TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.All[0]);
        Assert.Equal(RuleVerdict.Marginal, Rule("water").Evaluate(c).Verdict);
    }

    [Fact]
    public void Immersion_DeeperThanMadeFor_NamesBothDepths()
    {
        var c = new SuitabilityCase(
            TestAssets.Benign() with { ImmersionM = 4 }, TagClassCatalogue.BuiltIn["hard-metal-mount-large"], AttachmentMethods.Table["screws"]);
        var rule = Rule("immersion");
        var finding = rule.Evaluate(c);
        Assert.Equal(RuleVerdict.Fail, finding.Verdict);
        Assert.Contains("4 m", rule.Explain(c, finding), StringComparison.Ordinal);
        Assert.Contains("1.5 m", rule.Explain(c, finding), StringComparison.Ordinal);
    }

    private static ISuitabilityRule Rule(string id) => SuitabilityRules.All.Single(r => r.Id == id);
}
