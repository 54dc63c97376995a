using TagService.Domain.Radio;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Tests.Radio;

/// <summary>The reference tables hold together.</summary>
public sealed class RadioTablesTests
{
    [Fact]
    public void Regions_EveryRow_IsPlausibleAndSaysHowSure()
    {
        Assert.True(RadioTables.Regions.All.Count >= 14);
        Assert.All(RadioTables.Regions.All.SelectMany(r => r.Bands), b =>
        {
            Assert.True(b.LowMhz < b.HighMhz);
            // ISO/IEC 18000-63 tags work in 860-960 MHz (standard's scope).
            Assert.InRange(b.LowMhz, 860, 960);
            Assert.InRange(b.HighMhz, 860, 960);
            Assert.InRange(LinkBudget.LimitEirpDbm(b), 20, 39);
            Assert.Contains(b.Status, (string[])["read", "secondary", "from memory"]);
            Assert.False(string.IsNullOrWhiteSpace(b.Rule));
        });
    }

    [Fact]
    public void Regions_Countries_AreTwoLettersAndUnique()
    {
        var countries = RadioTables.Regions.All.SelectMany(r => r.Countries).ToArray();
        Assert.All(countries, c => Assert.Matches("^[A-Z]{2}$", c));
        Assert.Equal(countries.Length, countries.Distinct().Count());
    }

    // India allows 4 W ERP, which is 6.56 W EIRP (G.S.R. 168(E), 2005, read), unlike the usual 4 W EIRP.
    [Fact]
    public void India_FourWattErp_IsMoreThanFourWattEirp() =>
        Assert.Equal(38.17, LinkBudget.LimitEirpDbm(RadioTables.Regions["india"].Bands[0]), 0.01);

    [Fact]
    public void Readers_EveryKind_HasARow()
    {
        foreach (var kind in Enum.GetValues<ReaderKind>())
            Assert.NotNull(RadioTables.Readers.Find(kind.ToString()));
        Assert.Null(RadioTables.Readers["phone"].EirpDbm);
    }

    [Theory]
    [InlineData("free-space")]
    [InlineData("open-yard")]
    [InlineData("office")]
    [InlineData("retail")]
    [InlineData("warehouse")]
    [InlineData("workshop")]
    [InlineData("plant")]
    [InlineData("store-room")]
    [InlineData("vehicle-yard")]
    public void Sites_ExpectedIds_Exist(string id)
    {
        var site = RadioTables.Sites[id];
        Assert.InRange(site.PathExponent, 2, 4);
        Assert.InRange(site.LookSigmaDb, 0.5, 6);
        Assert.False(string.IsNullOrWhiteSpace(site.Source));
    }
}
