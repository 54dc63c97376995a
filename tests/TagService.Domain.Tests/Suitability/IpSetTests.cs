using TagService.Domain.Suitability;

namespace TagService.Domain.Tests.Suitability;

/// <summary>IEC 60529, first and second numeral (read in secondary tables).</summary>
public sealed class IpSetTests
{
    [Theory]
    // Up to 6 a level implies the lower ones (IEC 60529).
    [InlineData("IP66", 6, true)]
    [InlineData("IP66", 5, true)]
    [InlineData("IP66", 1, true)]
    [InlineData("IP54", 5, false)]
    [InlineData("IP65", 6, false)]
    // 7, 8 and 9 do not imply jets (IEC 60529: only with a double code such as IP66/IP68).
    [InlineData("IP67", 5, false)]
    [InlineData("IP67", 6, false)]
    [InlineData("IP68", 5, false)]
    [InlineData("IP68", 6, false)]
    [InlineData("IP69", 5, false)]
    [InlineData("IP69", 6, false)]
    // Jets do not imply immersion, hot jets do not either (IEC 60529).
    [InlineData("IP66", 7, false)]
    [InlineData("IP69", 7, false)]
    [InlineData("IP69", 8, false)]
    [InlineData("IP68", 9, false)]
    // Longer and deeper immersion covers the shorter (common practice).
    [InlineData("IP68", 7, true)]
    [InlineData("IP67", 8, false)]
    public void HasWater_OneCode_FollowsTheStandard(string code, int level, bool held) =>
        Assert.Equal(held, IpSet.Of([code]).HasWater(level));

    [Fact]
    public void HasWater_DoubleCode_HoldsBoth()
    {
        // IEC 60529 gives double marking as the way to state both jets and immersion.
        var set = IpSet.Of(["IP66", "IP68"]);
        Assert.True(set.HasWater(6) && set.HasWater(8));
        Assert.Equal("IP66/IP68", set.Name);
    }

    [Theory]
    [InlineData("IP66", 6, 6)]
    [InlineData("ip 54", 5, 4)]
    [InlineData("68", 6, 8)]
    [InlineData("IPX7", 0, 7)]
    [InlineData("IP6X", 6, 0)]
    [InlineData("IP69K", 6, 9)] // ISO 20653 writes 9K for the same jets
    [InlineData("IP6K9K", 6, 9)]
    public void TryParse_WrittenForms_AreRead(string text, int solids, int water)
    {
        Assert.True(IpCode.TryParse(text, out var code));
        Assert.Equal(new IpCode(solids, water), code);
    }

    [Theory]
    [InlineData("")]
    [InlineData("IP")]
    [InlineData("IP7")]
    [InlineData("IP76")] // the first numeral ends at 6 (IEC 60529)
    [InlineData("IP660")]
    [InlineData("waterproof")]
    public void TryParse_NoCode_IsRefused(string text) => Assert.False(IpCode.TryParse(text, out _));
}
