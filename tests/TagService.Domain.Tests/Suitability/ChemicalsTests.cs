using TagService.Domain.Suitability;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Words for chemicals and well-known compatibilities.</summary>
public sealed class ChemicalsTests
{
    [Theory]
    // Dictionary words of several languages; common practice which family they belong to.
    [InlineData("fuel", "fuel")]
    [InlineData("Diesel", "fuel")]
    [InlineData("Heating oil", "fuel")]
    [InlineData("Hydrauliköl", "oil")]
    [InlineData("traces of engine oil", "oil")]
    [InlineData("Salzsäure", "strong-acid")]
    [InlineData("eau de Javel", "chlorine")]
    [InlineData("lejía", "chlorine")]
    [InlineData("Sodium hypochlorite 12 %", "chlorine")]
    [InlineData("soude caustique", "caustic")]
    [InlineData("salt-fog", "salt-fog")]
    [InlineData("SEA WATER", "salt-fog")]
    [InlineData("Desinfektionsmittel", "disinfectant")]
    [InlineData("agua oxigenada", "peroxide")]
    [InlineData("Ammoniak", "ammonia")]
    [InlineData("isopropyl alcohol", "alcohol")]
    public void Find_Word_GivesTheFamily(string word, string family) => Assert.Equal(family, Chemicals.Find(word)?.Id);

    [Theory]
    [InlineData("")]
    [InlineData("unobtainium")]
    [InlineData("?!")]
    public void Find_UnknownWord_GivesNone(string word) => Assert.Null(Chemicals.Find(word));

    [Theory]
    // Common practice, stated in any general resistance table.
    [InlineData("polycarbonate", "solvent", ChemicalRating.Attacked)]
    [InlineData("polycarbonate", "caustic", ChemicalRating.Attacked)]
    [InlineData("abs", "solvent", ChemicalRating.Attacked)]
    [InlineData("polypropylene", "caustic", ChemicalRating.Resists)]
    [InlineData("polyamide", "strong-acid", ChemicalRating.Attacked)]
    [InlineData("polyamide", "oil", ChemicalRating.Resists)]
    [InlineData("polyester", "caustic", ChemicalRating.Attacked)]
    [InlineData("rubber", "oil", ChemicalRating.Attacked)]
    [InlineData("aluminium", "caustic", ChemicalRating.Attacked)]
    [InlineData("stainless-steel", "oil", ChemicalRating.Resists)]
    [InlineData("glass", "strong-acid", ChemicalRating.Resists)]
    [InlineData("paper", "acid", ChemicalRating.Attacked)]
    [InlineData("rubber-adhesive", "fuel", ChemicalRating.Attacked)]
    public void RatingOf_WellKnownPair_IsThatOfTheTables(string material, string chemical, ChemicalRating rating) =>
        Assert.Equal(rating, Chemicals.RatingOf(material, chemical));

    [Fact]
    public void Compatibility_EveryMaterial_RatesEveryFamilyAndNoOther()
    {
        var families = Chemicals.Families.All.Select(f => f.Id).Order().ToArray();
        Assert.All(Chemicals.Compatibility.All, m => Assert.Equal(families, m.Ratings.Keys.Order()));
        Assert.All(Chemicals.Compatibility.All, m => Assert.NotEmpty(m.Source));
    }

    [Fact]
    public void Families_Words_BelongToOneFamilyOnly()
    {
        var words = Chemicals.Families.All
            .SelectMany(f => f.Synonyms.Append(f.Id).Append(f.Name).Select(Chemicals.Fold).Distinct()).ToArray();
        Assert.Equal(words.Length, words.Distinct().Count());
    }

    [Fact]
    public void FaceChemicals_UnknownChemical_IsMarginalAndSendsToTheSupplier()
    {
        var rule = SuitabilityRules.All.Single(r => r.Id == "face-chemicals");
        var c = new SuitabilityCase(
            TestAssets.Benign() with { Chemicals = ["unobtainium"] },
            Domain.TagClasses.TagClassCatalogue.BuiltIn.All[0],
            AttachmentMethods.All[0]);
        var finding = rule.Evaluate(c);
        Assert.Equal(RuleVerdict.Marginal, finding.Verdict);
        Assert.Contains("ask the supplier", rule.Explain(c, finding), StringComparison.Ordinal);
    }
}
