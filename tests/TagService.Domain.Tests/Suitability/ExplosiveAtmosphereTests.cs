using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>IEC 60079-14 (levels by zone) and IEC 60079-0 (groups, temperature classes), from memory.</summary>
public sealed class ExplosiveAtmosphereTests
{
    private static readonly DateOnly s_day = new(2026, 6, 1);

    [Theory]
    [InlineData("0", "Ga", true)]
    [InlineData("0", "Gb", false)]
    [InlineData("1", "Ga", true)]
    [InlineData("1", "Gb", true)]
    [InlineData("1", "Gc", false)]
    [InlineData("2", "Gc", true)]
    [InlineData("20", "Da", true)]
    [InlineData("20", "Db", false)]
    [InlineData("21", "Db", true)]
    [InlineData("21", "Dc", false)]
    [InlineData("22", "Dc", true)]
    [InlineData("1", "Da", false)] // a dust level says nothing of gas
    [InlineData("21", "Ga", false)]
    [InlineData("2", "", false)]
    public void Level_OfCertificate_HoldsForTheZonesOfTheStandard(string zone, string level, bool holds) =>
        Assert.Equal(holds, Verdict("hazardous-area", zone, null, null, Certificate(level)) == RuleVerdict.Pass);

    [Theory]
    // IEC 60079-0: IIC covers IIB covers IIA; IIIC covers IIIB covers IIIA.
    [InlineData("1", "IIA", "IIC", true)]
    [InlineData("1", "IIB", "IIB", true)]
    [InlineData("1", "IIC", "IIB", false)]
    [InlineData("21", "IIIA", "IIIC", true)]
    [InlineData("21", "IIIC", "IIIB", false)]
    [InlineData("21", "IIIA", "IIC", false)]
    [InlineData("1", null, "IIB", false)] // unstated counts as the most demanding
    [InlineData("1", null, "IIC", true)]
    public void Group_OfCertificate_CoversTheEasierOnes(string zone, string? asked, string held, bool holds) =>
        Assert.Equal(holds, Verdict("hazardous-group", zone, asked, null, Certificate("Ga") with { Group = held }) == RuleVerdict.Pass);

    [Theory]
    [InlineData("T1", 450)]
    [InlineData("T2", 300)]
    [InlineData("T3", 200)]
    [InlineData("T4", 135)]
    [InlineData("T5", 100)]
    [InlineData("T6", 85)]
    public void SurfaceLimit_TemperatureClass_IsThatOfTheStandard(string temperatureClass, double limitC) =>
        Assert.Equal(limitC, ExplosiveAtmosphere.SurfaceLimitC(temperatureClass));

    [Theory]
    [InlineData("T3", "T4", RuleVerdict.Pass)]
    [InlineData("T4", "T3", RuleVerdict.Fail)]
    [InlineData(null, "T4", RuleVerdict.Fail)] // unstated counts as T6
    [InlineData("T4", "unknown", RuleVerdict.Fail)]
    public void TemperatureClass_OfCertificate_MustBeAsCool(string? asked, string held, RuleVerdict verdict) =>
        Assert.Equal(verdict, Verdict("hazardous-temperature-class", "1", null, asked, Certificate("Ga") with { TemperatureClass = held }));

    [Theory]
    [InlineData("2026-06-01", RuleVerdict.Pass)]
    [InlineData("2026-05-31", RuleVerdict.Fail)]
    [InlineData(null, RuleVerdict.Pass)]
    public void CertificateDate_OnTheDay_Decides(string? until, RuleVerdict verdict)
    {
        var certificate = Certificate("Ga") with { ValidUntil = until is null ? null : DateOnly.Parse(until, null) };
        Assert.Equal(verdict, Verdict("hazardous-certificate-date", "1", "IIA", "T4", certificate));
    }

    [Fact]
    public void CertificateDate_WithoutADay_IsMarginal()
    {
        var c = Case("1", "IIA", "T4", Certificate("Ga") with { ValidUntil = s_day }) with { AsOf = null };
        Assert.Equal(RuleVerdict.Marginal, Rule("hazardous-certificate-date").Evaluate(c).Verdict);
    }

    [Fact]
    public void AllBuiltInClasses_InAnyZone_FailForWantOfACertificate()
    {
        // The product's first caution: no tag class without a certificate on record.
        foreach (var zone in new[] { "0", "1", "2", "20", "21", "22" })
        {
            var asset = TestAssets.Benign() with { HazardousArea = new() { Zone = zone } };
            Assert.All(TagClassCatalogue.BuiltIn.All, t =>
                Assert.Equal(RuleVerdict.Fail, Rule("hazardous-area").Evaluate(new(asset, t, AttachmentMethods.All[0])).Verdict));
        }
    }

    private static HazardousAreaCertificate Certificate(string level) => new("invented", level, "IIC", "T6", null);

    private static SuitabilityCase Case(string zone, string? group, string? temperatureClass, HazardousAreaCertificate certificate) => new(
        TestAssets.Benign() with { HazardousArea = new() { Zone = zone, Group = group, TemperatureClass = temperatureClass } },
        TagClassCatalogue.BuiltIn.All[0] with { Certificate = certificate },
        AttachmentMethods.All[0],
        s_day);

    private static RuleVerdict Verdict(
        string rule, string zone, string? group, string? temperatureClass, HazardousAreaCertificate certificate) =>
        Rule(rule).Evaluate(Case(zone, group, temperatureClass, certificate)).Verdict;

    private static ISuitabilityRule Rule(string id) => SuitabilityRules.All.Single(r => r.Id == id);
}
