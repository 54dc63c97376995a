using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Adhesives against the handbook: surface energy bands and temperature classes.</summary>
public sealed class AdhesionTests
{
    // Survey averages of critical surface tension in mN/m (published survey of polymers, read) and the working bands
    // below 36 low-energy, 36 to 300 medium (read), above 300 high (from memory).
    [Theory]
    [InlineData("PTFE", 19.4, false, false, true)]
    [InlineData("silicone", 20.1, false, false, true)]
    [InlineData("PP", 30.5, false, true, true)]
    [InlineData("PE", 31.6, false, true, true)]
    [InlineData("PS", 34, false, true, true)]
    [InlineData("PMMA", 37.5, true, true, true)]
    [InlineData("PVC", 37.9, true, true, true)]
    [InlineData("ABS", 38.5, true, true, true)]
    [InlineData("PET", 39, true, true, true)]
    [InlineData("nylon 6,6", 42.2, true, true, true)]
    [InlineData("PC", 44, true, true, true)]
    [InlineData("glass as handled", 55, true, true, true)]
    [InlineData("stainless steel, clean", 700, true, true, true)]
    public void SurfaceEnergy_HandbookSurface_DecidesTheAdhesive(
        string name, double energyMnPerM, bool general, bool lowEnergy, bool siliconeOrNone)
    {
        Assert.Equal(general, Holds("acrylic-label", name, energyMnPerM));
        Assert.Equal(general, Holds("acrylic-foam-tape", name, energyMnPerM));
        Assert.Equal(lowEnergy, Holds("low-energy-acrylic", name, energyMnPerM));
        Assert.Equal(lowEnergy, Holds("low-energy-foam-tape", name, energyMnPerM));
        // Rubber sticks to low- and high-energy surfaces (Handbook of Adhesives and Sealants, secondary).
        Assert.Equal(lowEnergy, Holds("high-tack-rubber", name, energyMnPerM));
        // Silicone bonds both energy classes (handbook); untreated PTFE stays out of reach.
        Assert.Equal(siliconeOrNone && name != "PTFE", Holds("silicone-adhesive", name, energyMnPerM));
    }

    [Fact]
    public void SurfaceEnergy_PowderCoat_IsNoPlainPassForGeneralAcrylic()
    {
        // Powder coat is grouped with low-energy surfaces (lists of low-energy surfaces, read); 30 to 45 by recipe (from memory).
        var powder = TestAssets.Bare with { Id = "powder-coat", SurfaceEnergyMnPerM = new(30, 37, 45) };
        Assert.NotEqual(RuleVerdict.Pass, Energy("acrylic-label", TestAssets.Steel, powder));
        Assert.Equal(RuleVerdict.Pass, Energy("low-energy-acrylic", TestAssets.Steel, powder));
        Assert.Equal(RuleVerdict.Pass, Energy("rivets", TestAssets.Steel, powder));
    }

    [Fact]
    public void SurfaceEnergy_OilThatComesOff_CountsTheGroundBelow()
    {
        // Common practice: oil is removed before bonding; then the metal decides.
        var oily = TestAssets.Bare with { Id = "oily", Name = "oily", MustBeRemoved = true, SurfaceEnergyMnPerM = new(20, 25, 30) };
        Assert.Equal(RuleVerdict.Pass, Energy("acrylic-label", TestAssets.Steel, oily));
        var c = new SuitabilityCase(TestAssets.Benign(coating: oily), TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table["acrylic-label"]);
        Assert.Equal(RuleVerdict.Marginal, Rule("loose-coating").Evaluate(c).Verdict);
    }

    [Theory]
    // Handbook of Adhesives and Sealants (secondary): acrylic -45 to 121 °C; silicone -73 to 250 °C. Rubber -30 to 70 °C from memory.
    [InlineData("acrylic-label", -45, 121)]
    [InlineData("tamper-evident-acrylic", -45, 121)]
    [InlineData("silicone-adhesive", -73, 250)]
    [InlineData("high-tack-rubber", -30, 70)]
    public void Temperature_AdhesiveClass_IsThatOfTheHandbook(string method, double minC, double maxC)
    {
        Assert.Equal(RuleVerdict.Pass, Heat(method, "fixing-temperature-max", a => a with { TemperatureMaxC = maxC - 10 }));
        Assert.Equal(RuleVerdict.Fail, Heat(method, "fixing-temperature-max", a => a with { TemperatureMaxC = maxC + 1 }));
        Assert.Equal(RuleVerdict.Pass, Heat(method, "fixing-temperature-min", a => a with { TemperatureMinC = minC + 10 }));
        Assert.Equal(RuleVerdict.Fail, Heat(method, "fixing-temperature-min", a => a with { TemperatureMinC = minC - 1 }));
    }

    [Theory]
    // Label converters' guidance (secondary): general labels about 4 to 10 °C, cold grades down to about -29 °C.
    [InlineData("acrylic-label", 20, RuleVerdict.Pass)]
    [InlineData("acrylic-label", 5, RuleVerdict.Marginal)]
    [InlineData("acrylic-label", -10, RuleVerdict.Fail)]
    [InlineData("freezer-acrylic", -15, RuleVerdict.Pass)]
    [InlineData("rivets", -40, RuleVerdict.Pass)]
    public void ApplicationTemperature_ColdSurface_NeedsAColdGrade(string method, double actualC, RuleVerdict verdict) =>
        Assert.Equal(verdict, Heat(method, "application-temperature", a => a with { ApplicationTemperatureC = actualC }));

    private static bool Holds(string method, string name, double energyMnPerM) =>
        Energy(method, TestAssets.Solid(name, MaterialKind.Dielectric, energyMnPerM, energyMnPerM, energyMnPerM), TestAssets.Bare)
        == RuleVerdict.Pass;

    private static RuleVerdict Energy(string method, Material material, Coating coating) =>
        Rule("surface-energy").Evaluate(new(
            TestAssets.Benign(material, coating), TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table[method])).Verdict;

    private static RuleVerdict Heat(
        string method, string rule, Func<Domain.Recommendations.ResolvedAsset, Domain.Recommendations.ResolvedAsset> change) =>
        Rule(rule).Evaluate(new(
            change(TestAssets.Benign()), TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table[method])).Verdict;

    private static ISuitabilityRule Rule(string id) => SuitabilityRules.All.Single(r => r.Id == id);
}
