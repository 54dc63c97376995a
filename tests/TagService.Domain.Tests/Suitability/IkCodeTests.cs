using TagService.Domain.Suitability;

namespace TagService.Domain.Tests.Suitability;

/// <summary>IEC 62262, table of impact energies (read in a secondary table).</summary>
public sealed class IkCodeTests
{
    [Theory]
    [InlineData("IK00", 0)]
    [InlineData("IK01", 0.14)]
    [InlineData("IK02", 0.20)]
    [InlineData("IK03", 0.35)]
    [InlineData("IK04", 0.5)]
    [InlineData("IK05", 0.7)]
    [InlineData("IK06", 1)]
    [InlineData("IK07", 2)]
    [InlineData("IK08", 5)]
    [InlineData("ik 09", 10)]
    [InlineData("IK10", 20)]
    [InlineData("IK11", 50)] // amendment of 2021, from memory
    public void TryParse_Code_GivesTheEnergyOfTheStandard(string code, double joules)
    {
        Assert.True(IkCode.TryParse(code, out var energyJ));
        Assert.Equal(joules, energyJ);
    }

    [Theory]
    [InlineData("IK12")]
    [InlineData("IK")]
    [InlineData("08")]
    [InlineData("IK8.5")]
    [InlineData("IK-1")]
    public void TryParse_NoCode_IsRefused(string text) => Assert.False(IkCode.TryParse(text, out _));
}
