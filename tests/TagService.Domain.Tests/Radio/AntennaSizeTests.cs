using TagService.Domain.Radio;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>What small antennas can do at best, and whether classes claim more.</summary>
public sealed class AntennaSizeTests
{
    // McLean, IEEE Trans. AP 44(5), 1996 (abstract read, formula from memory).
    [Theory]
    [InlineData(0.5, 10)]
    [InlineData(0.1, 1010)]
    [InlineData(1, 2)]
    public void LowestQ_McLean_IsExact(double ka, double q) => Assert.Equal(q, AntennaSizeBound.LowestQ(ka), 1e-9);

    // Upper bound by McLean and Bode-Fano: computed reference values, not an external proof.
    [Theory]
    [InlineData(3, -12.1, -4.2, -18.0)]
    [InlineData(5, -5.8, 0.45, -11.4)]
    [InlineData(7.5, -1.5, 1.71, -6.4)]
    [InlineData(10, 0.67, 1.76, -3.2)]
    [InlineData(15, 1.73, 1.76, 0.27)]
    [InlineData(20, 1.76, 1.76, 1.48)]
    [InlineData(30, 1.76, 1.76, 1.76)]
    [InlineData(50, 4.53, 4.22, 4.50)]
    public void GainBound_Radius_MatchesTheTable(double radiusMm, double us, double eu, double wide)
    {
        Assert.Equal(us, AntennaSizeBound.GainDbi(2 * radiusMm, 902, 928), 0.06);
        Assert.Equal(eu, AntennaSizeBound.GainDbi(2 * radiusMm, 865, 868), 0.06);
        Assert.Equal(wide, AntennaSizeBound.GainDbi(2 * radiusMm, 860, 960), 0.06);
    }

    // No class of the catalogue may claim more than physics allows for its size.
    [Fact]
    public void Catalogue_EveryClass_KeepsTheBound() => Assert.Empty(SizeBoundCheck.Breaking(TagClassCatalogue.BuiltIn.All));

    [Fact]
    public void SizeBound_ClaimTooHigh_IsNamedWithBothValues()
    {
        var finding = Assert.Single(SizeBoundCheck.Breaking([TestRows.Dipole("wonder-dot", 8, 8, 1, 60)]));
        Assert.Equal("wonder-dot", finding.TagClassId);
        Assert.Equal(-2, finding.ClaimedDbi, 1e-9);
        Assert.True(finding.BoundDbi < finding.ClaimedDbi);
    }

    // Hayt and Buck, Engineering Electromagnetics, 8th ed., problem 14.7 (problem read, answers computed): 0.03 lambda.
    [Theory]
    [InlineData(1.0, 0.711)]
    [InlineData(0.5, 0.178)]
    [InlineData(0.75, 0.400)]
    public void ShortDipole_HaytBuck_MatchesTheAnswers(double meanCurrent, double ohm) =>
        Assert.Equal(ohm, SmallAntennas.ShortDipoleOhm(0.03, meanCurrent), ohm * 0.005);

    // Small copper loops, wire radius 0.5 mm at 915 MHz (computed from standard formulas, secondary).
    [Theory]
    [InlineData(5, 0.0167, 0.175)]
    [InlineData(10, 0.267, 0.628)]
    [InlineData(15, 1.35, 0.851)]
    [InlineData(20, 4.27, 0.931)]
    public void SmallLoop_Copper_MatchesTheTable(double radiusMm, double ohm, double efficiency)
    {
        Assert.Equal(ohm, SmallAntennas.SmallLoopOhm(915, Math.PI * radiusMm * radiusMm * 1e-6), ohm * 0.01);
        Assert.Equal(efficiency, SmallAntennas.LoopEfficiency(915, radiusMm, 0.5), efficiency * 0.01);
    }

    // Textbook problem (secondary): loop of 0.5 m radius, 5 mm wire radius, copper, 3 MHz.
    [Fact]
    public void SmallLoop_HalfMetreAtThreeMegahertz_IsVeryInefficient()
    {
        Assert.Equal(0.193e-3, SmallAntennas.SmallLoopOhm(3, Math.PI * 0.25), 0.193e-3 * 0.02);
        Assert.Equal(0.0042, SmallAntennas.LoopEfficiency(3, 500, 5), 0.0042 * 0.02);
    }
}
