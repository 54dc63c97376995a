using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Every caution the product must carry appears where it applies (product's own list; common practice of work safety).</summary>
public sealed class CautionSelectionTests
{
    [Fact]
    public void For_ExplosiveAtmosphere_NamesCertificateReaderPowerAndCompetentPerson()
    {
        var caution = Assert.Single(
            For(TestAssets.Benign() with { HazardousArea = new() { Zone = "1" } }), c => c.Id == "explosive-atmosphere");
        Assert.Contains("certificate", caution.Precaution, StringComparison.Ordinal);
        Assert.Contains("radiated power", caution.Precaution, StringComparison.Ordinal);
        Assert.Contains("gas group", caution.Precaution, StringComparison.Ordinal);
        Assert.Contains("competent person", caution.WhoDecides, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("screws", "drilling-lithium")]
    [InlineData("screws", "drilling-pressurised")]
    [InlineData("rivets", "no-drilling-without-engineer")]
    [InlineData("potted-recess", "drilling-lithium")]
    [InlineData("welded-carrier", "hot-work")]
    [InlineData("acrylic-foam-tape", "cleaning-solvents")]
    [InlineData("two-part-epoxy", "uncured-resin")]
    [InlineData("implant", "animal-handling")]
    [InlineData("steel-strap", "sharp-edges")]
    public void For_Method_CarriesItsCautions(string method, string caution) =>
        Assert.Contains(For(TestAssets.Benign(), AttachmentMethods.Table[method]), c => c.Id == caution);

    [Fact]
    public void For_EveryMethodThatNeedsHoles_WarnsOfHoles() => Assert.All(
        AttachmentMethods.All.Where(m => m.NeedsDrilling && m.Kind != AttachmentKind.Nail),
        m => Assert.Contains(For(TestAssets.Benign(), m), c => c.Id == "no-drilling-without-engineer"));

    [Fact]
    public void For_Surroundings_CarryTheirCautions()
    {
        Assert.Contains(For(TestAssets.Benign() with { PeakTemperatureC = 90 }), c => c.Id == "hot-surfaces");
        Assert.DoesNotContain(For(TestAssets.Benign()), c => c.Id == "hot-surfaces");
        Assert.Contains(For(TestAssets.Benign() with { Setting = Setting.Clinical }), c => c.Id == "medical-equipment");
        Assert.Contains(For(TestAssets.Benign() with { FoodContact = true }), c => c.Id == "food-contact");
        Assert.Contains(For(TestAssets.Benign() with { Chemicals = ["oxygen"] }), c => c.Id == "oxygen-service");
        Assert.Contains(For(TestAssets.Benign() with { Chemicals = ["chlorine"] }), c => c.Id == "toxic-gas");
        Assert.Contains(For(TestAssets.Benign() with { Reading = TestAssets.Reading(ReaderKind.Fixed) }), c => c.Id == "radio-exposure");
        Assert.Contains(For(TestAssets.Benign()), c => c.Id == "radio-transmitter");
    }

    [Fact]
    public void For_ProfilesCautions_AreCarriedGravestFirst()
    {
        var asset = TestAssets.Benign();
        asset = asset with { Profile = asset.Profile with { Cautions = ["work-at-height", "pressure-vessel"] } };
        Assert.Equal(["pressure-vessel", "work-at-height", "radio-transmitter"], For(asset).Select(c => c.Id));
    }

    [Fact]
    public void For_OilThatMustComeOff_WarnsOfSolventsEvenWithPlainWiping()
    {
        var oily = TestAssets.Bare with { MustBeRemoved = true };
        Assert.Contains(For(TestAssets.Benign(coating: oily), AttachmentMethods.Table["high-tack-rubber"]), c => c.Id == "cleaning-solvents");
        Assert.DoesNotContain(For(TestAssets.Benign(), AttachmentMethods.Table["high-tack-rubber"]), c => c.Id == "cleaning-solvents");
    }

    [Fact]
    public void For_BatteryTag_WarnsOfTheBattery() => Assert.Contains(
        CautionSelection.For(TestAssets.Benign(), TagClassCatalogue.BuiltIn["battery-assisted-tag"], null), c => c.Id == "battery-tag");

    [Fact]
    public void Cautions_All_NameHazardPrecautionAndWhoDecides()
    {
        Assert.All(Cautions.All, c =>
        {
            Assert.Matches("^[a-z]+(-[a-z]+)*$", c.Id);
            Assert.NotEmpty(c.Hazard);
            Assert.NotEmpty(c.Precaution);
            Assert.NotEmpty(c.WhoDecides);
            Assert.NotEmpty(c.Source);
        });
        string[] wanted =
        [
            "explosive-atmosphere", "pressure-vessel", "lifting-gear", "safety-critical-part", "inspection-marks",
            "energised-equipment", "work-at-height", "medical-equipment", "cleaning-solvents", "drilling-lithium",
            "drilling-pressurised", "hot-surfaces", "radio-transmitter", "radio-exposure", "food-contact", "oxygen-service",
        ];
        Assert.All(wanted, id => Assert.NotNull(Cautions.Table.Find(id)));
    }

    private static IReadOnlyList<Caution> For(ResolvedAsset asset, AttachmentMethod? method = null) =>
        CautionSelection.For(asset, method is null ? null : TagClassCatalogue.BuiltIn.All[0], method);
}
