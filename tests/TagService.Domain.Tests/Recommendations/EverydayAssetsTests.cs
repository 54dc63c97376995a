using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Tests.Recommendations;

/// <summary>
/// What a tagging lead would expect for everyday assets of which only the category is known. Facts of the trade
/// throughout: common practice.
/// </summary>
public sealed class EverydayAssetsTests
{
    /// <summary>Profiles that rightly end without a class, each with its reason.</summary>
    private static readonly Dictionary<string, string> WithoutClass = new(StringComparer.Ordinal)
    {
        ["chlorine-cylinder"] = "drums are knocked about at 20 J, and chlorine attacks the polyamide of the housings that bear it",
    };

    /// <summary>All profiles; the thin record of each has the first English word as its category and nothing else.</summary>
    public static TheoryData<string> Profiles => [.. AssetProfiles.Table.All.Select(p => p.Id)];

    [Theory]
    [MemberData(nameof(Profiles))]
    public void Profiles_TypicalRecord_GetsATagClass(string profileId)
    {
        var answer = Recommend(new() { Category = Category(AssetProfiles.Table[profileId]) });
        Assert.Equal(profileId, answer.Profile.Profile.Id);
        Assert.Equal(WithoutClass.ContainsKey(profileId), answer.Recommendation is null);
    }

    // Common practice: the constructions (families) that tagging leads put on such things.
    [Theory]
    [InlineData("laptop", "slim-metal-mount-label", "tamper-evident-label")]
    [InlineData("desktop", "slim-metal-mount-label", "tamper-evident-label")]
    [InlineData("monitor", "polymer-label", "tamper-evident-label")]
    [InlineData("printer", "polymer-label", "tamper-evident-label")]
    [InlineData("network switch", "slim-metal-mount-label", "hard-metal-mount")]
    [InlineData("chair", "polymer-label", "wood-and-plastic-hard-tag")]
    [InlineData("desk", "polymer-label", "wood-and-plastic-hard-tag")]
    [InlineData("document file", "document-strip-label", "paper-label")]
    [InlineData("key", "uhf-key-fob", "nfc-key-fob")]
    [InlineData("wrench", "hard-metal-mount", "ceramic", "embeddable-tool-tag")]
    [InlineData("power tool", "hard-metal-mount", "polymer-label")]
    [InlineData("ladder", "hard-metal-mount", "rivet-mount-tag", "tie-mount-tag")]
    [InlineData("pump", "hard-metal-mount", "rivet-mount-tag", "strap-mount-tag")]
    [InlineData("motor", "hard-metal-mount", "rivet-mount-tag", "strap-mount-tag")]
    [InlineData("valve", "hard-metal-mount", "tie-mount-tag", "strap-mount-tag")]
    [InlineData("gas cylinder", "hard-metal-mount", "strap-mount-tag")]
    [InlineData("fire extinguisher", "hard-metal-mount", "slim-metal-mount-label", "strap-mount-tag")]
    [InlineData("cable", "cable-flag-label", "tie-mount-tag")]
    [InlineData("pallet", "wood-and-plastic-hard-tag", "screw-mount-hard-tag")]
    [InlineData("crate", "wood-and-plastic-hard-tag", "polymer-label", "in-mould-label")]
    [InlineData("shipping container", "screw-mount-hard-tag", "pressure-wash-outdoor-tag", "long-range-outdoor-tag", "weld-mount-metal-tag")]
    [InlineData("trailer", "screw-mount-hard-tag", "pressure-wash-outdoor-tag", "rivet-mount-tag")]
    [InlineData("car", "windscreen-label")]
    [InlineData("carton", "paper-label", "document-strip-label", "polymer-label")]
    [InlineData("uniform", "laundry-textile-tag")]
    [InlineData("linen", "laundry-textile-tag")]
    [InlineData("laboratory instrument", "slim-metal-mount-label", "polymer-label", "tamper-evident-label")]
    [InlineData("medical bed", "hard-metal-mount", "rivet-mount-tag", "slim-metal-mount-label")]
    [InlineData("surgical instrument", "autoclavable-instrument-tag", "ceramic")]
    [InlineData("tree", "wood-nail-tag")]
    [InlineData("cattle", "animal-ear-tag")]
    [InlineData("pet", "glass-capsule-hf")]
    [InlineData("tyre", "rubber-embedded-tag")]
    public void Recommend_EverydayAsset_ChoosesWhatPracticeChooses(string category, params string[] families)
    {
        var choice = Recommend(new() { Category = category }).Recommendation;
        Assert.NotNull(choice);
        Assert.Contains(choice.TagClass.Family, families);
    }

    // Common practice: nobody drills, rivets or welds these without the owner's engineer.
    [Theory]
    [InlineData("gas cylinder")]
    [InlineData("fire extinguisher")]
    [InlineData("lifting sling")]
    [InlineData("ladder")]
    [InlineData("forklift")]
    [InlineData("laptop")]
    public void Recommend_SafetyCriticalAsset_IsNeverDrilled(string category) =>
        Assert.False(Recommend(new() { Category = category }).Recommendation!.Method.NeedsDrilling);

    // IEC 60079-14: only equipment certified for the zone; no built-in class has a certificate on record.
    [Theory]
    [InlineData("pump", "1", "IIA")]
    [InlineData("gas detector", "1", "IIB")]
    [InlineData("motor", "2", "IIC")]
    public void Recommend_ExplosiveAtmosphere_RefusesWithoutCertificate(string category, string zone, string group)
    {
        var record = new AssetRecord { Category = category, Environment = new() { HazardousArea = new() { Zone = zone, Group = group, TemperatureClass = "T3" } } };
        Assert.Null(Recommend(record).Recommendation);
    }

    // Common practice: where harder knocks are to be expected, the construction chosen bears at least as much.
    [Fact]
    public void Recommend_HarderKnocks_NeverChooseAWeakerConstruction() => Assert.All(AssetProfiles.Table.All, p =>
    {
        double least = 0;
        foreach (var impactJ in (double[])[0.2, 0.5, 1, 2, 5, 10, 20])
        {
            var answer = Recommend(new() { Category = Category(p), Environment = new() { ImpactJ = impactJ } });
            if (answer.Recommendation is not { } choice)
                continue;
            Assert.True(choice.TagClass.Limits.ImpactJ >= least, $"{p.Id} at {impactJ} J: {choice.TagClass.Id}");
            least = choice.TagClass.Limits.ImpactJ;
        }
    });

    // Common practice: the same thing on a building site gets a tougher tag than in an office, outdoors another one.
    [Theory]
    [InlineData("laptop")]
    [InlineData("monitor")]
    [InlineData("printer")]
    [InlineData("desk")]
    [InlineData("it equipment")]
    public void Recommend_SameAssetInRougherPlace_ChoosesATougherConstruction(string category)
    {
        var room = new MountingRecord { LengthMm = 160, WidthMm = 60, MaxHeightMm = 20, AllowDrilling = true };
        var choices = new[] { Setting.Office, Setting.Outdoor, Setting.RoughSite }
            .Select(s => Recommend(new() { Category = category, Mounting = room, Environment = new() { Setting = s } }).Recommendation!)
            .ToArray();
        Assert.NotEqual(choices[0].TagClass.Id, choices[1].TagClass.Id);
        Assert.Equal(choices.Select(c => c.TagClass.Limits.ImpactJ).Order(), choices.Select(c => c.TagClass.Limits.ImpactJ));
        Assert.True(choices[0].TagClass.Limits.ImpactJ < choices[2].TagClass.Limits.ImpactJ);
    }

    private static string Category(AssetProfile p) => p.Words["en"] is [var first, ..] ? first : "zzqq";

    private static RecommendationAnswer Recommend(AssetRecord record) => RecommendationEngine.Recommend(record, new(IncludeQuestions: false));
}
