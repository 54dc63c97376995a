using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>The rows of the attachment table.</summary>
public sealed class AttachmentMethodsTests
{
    [Fact]
    public void All_Rows_AreCompleteAndSane()
    {
        Assert.True(AttachmentMethods.All.Count >= 16);
        Assert.All(AttachmentMethods.All, m =>
        {
            Assert.Matches("^[a-z]+(-[a-z]+)*$", m.Id);
            Assert.NotEmpty(m.Source);
            Assert.NotEmpty(m.WorksOn);
            Assert.True(m.TemperatureMinC < m.TemperatureMaxC && m.TemperatureMaxC <= m.PeakTemperatureC, m.Id);
            Assert.InRange(m.AddedStandoffMm, 0, 30);
            Assert.InRange(m.Minutes, 0.2, 60);
            Assert.InRange(m.ConsumablesPrice, 0, 20);
            Assert.InRange(m.LifeFactor, 0.3, 3);
            Assert.NotNull(Chemicals.Compatibility.Find(m.FixingMaterial));
            Assert.All(m.Steps, s => Assert.NotNull(FittingSteps.Table.Find(s)));
            Assert.All(m.Cautions, c => Assert.NotNull(Cautions.Table.Find(c)));
            Assert.Equal(m.Kind == AttachmentKind.Adhesive, m.Adhesive is not null);
        });
    }

    [Fact]
    public void All_NamedMaterials_AreInTheTableOfMaterials() => Assert.All(
        AttachmentMethods.All.SelectMany(m => (m.OnlyMaterials ?? []).Concat(m.ExceptMaterials ?? [])).Distinct(),
        id => Assert.NotNull(Materials.Table.Find(id)));

    [Fact]
    public void All_Methods_AreUsedByATagClass() => Assert.All(
        AttachmentMethods.All, m => Assert.Contains(TagClassCatalogue.BuiltIn.All, t => t.AttachmentMethods.Contains(m.Id)));

    [Theory]
    // Common practice: what is driven, sewn, welded or implanted works on its own kind of thing only.
    [InlineData("nail", "wood", MaterialKind.Dielectric, true)]
    [InlineData("nail", "glass", MaterialKind.Dielectric, false)]
    [InlineData("welded-carrier", "stainless-steel", MaterialKind.Metal, true)]
    [InlineData("welded-carrier", "aluminium", MaterialKind.Metal, false)]
    [InlineData("screws", "glass", MaterialKind.Dielectric, false)]
    [InlineData("sewn", "textile", MaterialKind.Textile, true)]
    [InlineData("sewn", "steel", MaterialKind.Metal, false)]
    [InlineData("implant", "muscle", MaterialKind.Tissue, true)]
    [InlineData("implant", "living-wood", MaterialKind.Tissue, false)]
    [InlineData("acrylic-label", "muscle", MaterialKind.Tissue, false)]
    [InlineData("acrylic-label", "water", MaterialKind.Liquid, false)]
    [InlineData("cable-tie", "steel", MaterialKind.Metal, true)]
    public void Surface_MaterialAndMethod_FollowCommonPractice(string method, string material, MaterialKind kind, bool works)
    {
        var rule = SuitabilityRules.All.Single(r => r.Id == "surface");
        var c = new SuitabilityCase(
            TestAssets.Benign(TestAssets.Material(material, kind)), TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table[method]);
        Assert.Equal(works, rule.Evaluate(c).Verdict == RuleVerdict.Pass);
    }

    [Fact]
    public void Drilling_NotAllowed_RefusesEveryMethodThatMakesHoles()
    {
        var rule = SuitabilityRules.All.Single(r => r.Id == "drilling");
        var asset = TestAssets.Benign() with { AllowDrilling = false };
        string[] holes = ["screws", "existing-thread", "rivets", "nail", "weld-stud-carrier", "welded-carrier", "potted-recess"];
        Assert.All(holes, m => Assert.Equal(
            RuleVerdict.Fail, rule.Evaluate(new(asset, TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table[m])).Verdict));
        string[] harmless = ["acrylic-label", "steel-strap", "cable-tie", "hanging-cord", "sewn"];
        Assert.All(harmless, m => Assert.Equal(
            RuleVerdict.Pass, rule.Evaluate(new(asset, TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table[m])).Verdict));
    }

    [Theory]
    // Common practice: a band needs a pipe or post, a key ring an eye; a label needs neither.
    [InlineData("steel-strap", 0, RuleVerdict.Marginal)]
    [InlineData("steel-strap", 150, RuleVerdict.Pass)]
    [InlineData("cable-tie", 2000, RuleVerdict.Marginal)]
    [InlineData("key-ring", 0, RuleVerdict.Marginal)]
    [InlineData("acrylic-label", 0, RuleVerdict.Pass)]
    public void Grip_FlatOrRound_DecidesWhetherABandHasHold(string method, double radiusMm, RuleVerdict verdict)
    {
        var rule = SuitabilityRules.All.Single(r => r.Id == "grip");
        var c = new SuitabilityCase(
            TestAssets.Benign() with { CurvatureRadiusMm = radiusMm }, TagClassCatalogue.BuiltIn.All[0], AttachmentMethods.Table[method]);
        Assert.Equal(verdict, rule.Evaluate(c).Verdict);
    }
}
