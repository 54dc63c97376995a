using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Identity length, further data and password against the tag's memory.</summary>
public sealed class MemoryRulesTests
{
    [Theory]
    // GS1 EPC Tag Data Standard 2.3, table 14-1: lengths of the schemes. ISO/IEC 18000-63: EPC memory in words of 16 bits.
    [InlineData("GIAI-96", 96, RuleVerdict.Pass)]
    [InlineData("GIAI-96", 80, RuleVerdict.Fail)]
    [InlineData("GRAI-170", 176, RuleVerdict.Pass)]
    [InlineData("GRAI-170", 128, RuleVerdict.Fail)]
    [InlineData("SGTIN-198", 208, RuleVerdict.Pass)]
    [InlineData("SGTIN-198", 192, RuleVerdict.Fail)]
    [InlineData("GIAI-202", 208, RuleVerdict.Pass)]
    [InlineData("GIAI-202", 128, RuleVerdict.Fail)]
    public void Identity_SchemeAgainstEpcMemory_FollowsTheStandard(string scheme, int epcBits, RuleVerdict verdict)
    {
        var asset = ProfileResolution.Resolve(new() { Identity = new() { Scheme = scheme } }).Asset;
        Assert.Equal(verdict, Judge("identity-memory", asset, Uhf(epcBits, 0)));
    }

    [Fact]
    public void Identity_Nothing_IsAssumedToHave96BitsAndSaysSo()
    {
        var resolution = ProfileResolution.Resolve(new() { Category = "pump" });
        var assumption = Assert.Single(resolution.Assumptions, a => a.Pointer == "/identity/epcBits");
        Assert.Equal((96, "96 bits"), (resolution.Asset.EpcBits, assumption.Assumed));
    }

    [Fact]
    public void Identity_OnHfTag_LiesInItsDataMemory()
    {
        var asset = TestAssets.Benign() with { EpcBits = 202, UserMemoryBits = 700 };
        var hf = TagClassCatalogue.BuiltIn["hf-disc-large"] with { Memory = new(0, 896, false) };
        Assert.Equal(RuleVerdict.Pass, Judge("identity-memory", asset, hf));
        Assert.Equal(RuleVerdict.Fail, Judge("user-memory", asset, hf));
        Assert.Equal(RuleVerdict.Pass, Judge("user-memory", asset with { UserMemoryBits = 694 }, hf));
    }

    [Fact]
    public void Password_AskedFor_NeedsATagThatHasOne()
    {
        var asset = TestAssets.Benign() with { AccessPassword = true };
        var tag = Uhf(96, 0);
        Assert.Equal(RuleVerdict.Pass, Judge("access-password", asset, tag));
        Assert.Equal(RuleVerdict.Fail, Judge("access-password", asset, tag with { Memory = new(96, 0, false) }));
    }

    /// <summary>Whoever needs a long identity is not left without an answer for want of memory alone.</summary>
    [Theory]
    [InlineData("cast iron", "plant")]
    [InlineData("painted steel", "outdoor")]
    [InlineData("abs", "office")]
    public void Recommendation_LongIdentity_ChoosesATagThatHoldsIt(string material, string setting)
    {
        var record = new AssetRecord
        {
            Surface = new() { Material = material }, Environment = new() { Setting = Enum.Parse<Setting>(setting, ignoreCase: true) },
            Mounting = new() { LengthMm = 150, WidthMm = 60, MaxHeightMm = 20 }, Identity = new() { Scheme = "GIAI-202" }, Reading = new() { RequiredRangeM = 1 },
        };
        var chosen = RecommendationEngine.Recommend(record).Recommendation;
        Assert.NotNull(chosen);
        Assert.True(chosen.TagClass.Memory.EpcBits >= 208 || chosen.TagClass.Technology != TagTechnology.Uhf, chosen.TagClass.Id);
    }

    private static TagClass Uhf(int epcBits, int userBits) =>
        TagClassCatalogue.BuiltIn["hard-metal-mount-large"] with { Memory = new(epcBits, userBits, true) };

    private static RuleVerdict Judge(string rule, ResolvedAsset asset, TagClass tagClass) =>
        SuitabilityRules.All.Single(r => r.Id == rule).Evaluate(new(asset, tagClass, AttachmentMethods.All[0])).Verdict;
}
