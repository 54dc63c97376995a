using TagService.Domain.Suitability;
using TagService.Domain.Suitability.Rules;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Room and curvature: geometry.</summary>
public sealed class RoomTests
{
    [Theory]
    // Pythagorean triples 3-4-5 and 5-12-13 (Euclid): chord w, gap g, radius R with R^2 = (R - g)^2 + (w / 2)^2.
    [InlineData(8, 2, 5)]
    [InlineData(6, 1, 5)]
    [InlineData(10, 1, 13)]
    [InlineData(24, 8, 13)]
    public void SmallestRadius_PythagoreanChord_IsExact(double widthMm, double gapMm, double radiusMm) =>
        Assert.Equal(radiusMm, Curvature.SmallestRadiusMm(widthMm, gapMm), 1e-12);

    [Theory]
    [InlineData(0, 1)]
    [InlineData(-1, 1)]
    [InlineData(double.NaN, 1)]
    [InlineData(10, -1)]
    public void SmallestRadius_OutOfRange_Throws(double widthMm, double gapMm) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Curvature.SmallestRadiusMm(widthMm, gapMm));

    [Theory]
    // Either orientation: a tag of 100 x 27 mm with 1 mm of margin all round takes 102 x 29 mm.
    [InlineData(102, 29, RuleVerdict.Pass)]
    [InlineData(29, 102, RuleVerdict.Pass)]
    [InlineData(101, 29, RuleVerdict.Marginal)]
    [InlineData(99, 40, RuleVerdict.Fail)]
    [InlineData(40, 40, RuleVerdict.Fail)]
    public void Room_TurnedPlace_IsTheSame(double lengthMm, double widthMm, RuleVerdict verdict)
    {
        var c = Case(TestAssets.Benign() with { LengthMm = lengthMm, WidthMm = widthMm }, "slim-metal-mount-label-large", "acrylic-label");
        Assert.Equal(verdict, Verdicts.Worst(c, [Rule("room-length"), Rule("room-width")]));
    }

    [Theory]
    // Common practice: a stiff tag on tape does not hold on a thin pipe, a flexible label or a banded tag does.
    [InlineData("hard-metal-mount-large", "acrylic-foam-tape", RuleVerdict.Fail)]
    [InlineData("slim-metal-mount-label-medium", "acrylic-label", RuleVerdict.Pass)]
    [InlineData("strap-mount-tag", "steel-strap", RuleVerdict.Pass)]
    [InlineData("swing-tag", "hanging-cord", RuleVerdict.Pass)]
    public void Curvature_PipeOfHundredMillimetres_ChoosesTheConstruction(string tagClass, string method, RuleVerdict verdict) =>
        Assert.Equal(verdict, Rule("curvature").Evaluate(
            Case(TestAssets.Benign() with { CurvatureRadiusMm = 50 }, tagClass, method)).Verdict);

    [Theory]
    [InlineData(3, RuleVerdict.Fail)]
    [InlineData(34, RuleVerdict.Pass)]
    public void RecessDepth_NailInWood_NeedsWoodAsLongAsTheNail(double thicknessMm, RuleVerdict verdict) =>
        Assert.Equal(verdict, Rule("recess-depth").Evaluate(
            Case(TestAssets.Benign() with { ThicknessMm = thicknessMm }, "wood-nail-tag", "nail")).Verdict);

    [Fact]
    public void Height_FlushEmbedding_NeedsNoneAboveTheSurface() =>
        Assert.Equal(RuleVerdict.Pass, Rule("room-height").Evaluate(
            Case(TestAssets.Benign() with { MaxHeightMm = 0.1 }, "embeddable-tool-tag", "potted-recess")).Verdict);

    [Fact]
    public void Protrusion_WhereThingsSlide_IsNoPlainPass()
    {
        var c = Case(TestAssets.Benign() with { Abrasion = Domain.Recommendations.Level.High }, "hard-metal-mount-large", "screws");
        Assert.Equal(RuleVerdict.Marginal, Rule("protrusion").Evaluate(c).Verdict);
    }

    private static SuitabilityCase Case(Domain.Recommendations.ResolvedAsset asset, string tagClass, string method) =>
        new(asset, TagClassCatalogue.BuiltIn[tagClass], AttachmentMethods.Table[method]);

    private static ISuitabilityRule Rule(string id) => SuitabilityRules.All.Single(r => r.Id == id);
}
