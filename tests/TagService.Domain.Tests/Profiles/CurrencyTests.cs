using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Profiles;

/// <summary>Currency without an exchange rate: the rule of the design, with the published labour cost it rests on.</summary>
public sealed class CurrencyTests
{
    // U.S. BLS, Employer Costs for Employee Compensation, June 2025, private industry (USDL-25-1358, read).
    private const double BlsRate = 45.65;

    private const double Tolerance = 1e-9;

    [Fact]
    public void Resolve_NothingGiven_IsInTheCurrencyOfThePricesAtThePublishedRate()
    {
        var asset = ProfileResolution.Resolve(new() { Category = "laptop" }).Asset;
        Assert.Equal(("USD", BlsRate, 1.0), (asset.Currency, asset.LabourRatePerHour, asset.PriceFactor));
        Assert.All(TagClassCatalogue.BuiltIn.All, c => Assert.Equal(asset.Currency, c.Price.Currency));
    }

    [Theory]
    [InlineData("EUR")]
    [InlineData("JPY")]
    public void Resolve_OtherCurrencyWithoutLabourRate_StaysAndSaysWhatIsNeeded(string currency)
    {
        var thin = ProfileResolution.Resolve(new() { Category = "laptop" });
        var resolution = ProfileResolution.Resolve(new() { Category = "laptop", Service = new() { Currency = currency } });
        Assert.Equal(thin.Asset, resolution.Asset);
        var notice = Assert.Single(resolution.Notices);
        Assert.Equal(("currency-not-known", "/service/currency"), (notice.Code, notice.Pointer));
        Assert.Contains(currency, notice.Text, StringComparison.Ordinal);
        Assert.Contains("labour rate", notice.Text, StringComparison.Ordinal);
        Assert.Contains(resolution.Assumptions, a => a is { Pointer: "/service/currency", Assumed: "USD" });
    }

    [Fact]
    public void Resolve_OtherCurrencyWithFreeLabour_IsNotKnownEither() => Assert.Contains(
        ProfileResolution.Resolve(new() { Service = new() { Currency = "EUR", LabourRatePerHour = 0 } }).Notices,
        n => n.Code == "currency-not-known");

    [Fact]
    public void Resolve_OtherCurrencyWithLabourRate_SaysTheFactor()
    {
        var resolution = ProfileResolution.Resolve(new() { Category = "laptop", Service = new() { Currency = "JPY", LabourRatePerHour = 4565 } });
        Assert.Equal(("JPY", 4565.0), (resolution.Asset.Currency, resolution.Asset.LabourRatePerHour));
        Assert.Equal(100, resolution.Asset.PriceFactor, Tolerance);
        Assert.Empty(resolution.Notices);
        var assumption = Assert.Single(resolution.Assumptions, a => a.Pointer == "/service/currency");
        Assert.Contains("100", assumption.Assumed, StringComparison.Ordinal);
        Assert.Contains("no exchange rate", assumption.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void Resolve_OwnCurrencyNamed_AssumesNothingAboutIt()
    {
        var resolution = ProfileResolution.Resolve(new() { Service = new() { Currency = "USD", LabourRatePerHour = 90 } });
        Assert.Equal(1, resolution.Asset.PriceFactor);
        Assert.DoesNotContain(resolution.Assumptions, a => a.Pointer == "/service/currency");
    }

    /// <summary>Every part of the cost is minutes of labour or a price, so at equal minutes all scale with the rate.</summary>
    [Theory]
    [InlineData("laptop")]
    [InlineData("pump")]
    [InlineData("linen")]
    public void Recommend_OtherCurrencyWithLabourRate_ScalesEveryAmountAndChangesNoChoice(string category)
    {
        var inUsd = Recommend(new() { Category = category });
        var inOther = Recommend(new() { Category = category, Service = new() { Currency = "XTS", LabourRatePerHour = 3 * BlsRate } });
        Assert.Equal("XTS", inOther.Currency);
        Assert.Equal(inUsd.Candidates.Select(c => c.TagClass.Id), inOther.Candidates.Select(c => c.TagClass.Id));
        foreach (var (a, b) in inUsd.Candidates.Zip(inOther.Candidates))
        {
            Assert.Equal("XTS", b.Cost.Currency);
            Assert.Equal(3, b.Cost.PresentValue / a.Cost.PresentValue, Tolerance);
            Assert.Equal(3, b.Cost.P10 / a.Cost.P10, Tolerance);
            Assert.Equal(3, b.Cost.P90 / a.Cost.P90, Tolerance);
        }
    }

    [Fact]
    public void PriceFactorOf_OwnPriceInTheAssetsCurrency_IsTakenAsItIs()
    {
        var asset = ProfileResolution.Resolve(new() { Category = "pump", Service = new() { Currency = "EUR", LabourRatePerHour = 2 * BlsRate } }).Asset;
        var builtIn = TagClassCatalogue.BuiltIn["hard-metal-mount-medium"];
        var own = builtIn with { Price = builtIn.Price with { Currency = "EUR" } };
        Assert.Equal(2, asset.PriceFactorOf(builtIn), Tolerance);
        Assert.Equal(1, asset.PriceFactorOf(own));
    }

    /// <summary>The tag's share of the present value follows the price: an own price in the record's currency is not multiplied.</summary>
    [Fact]
    public void Recommend_OwnPriceInTheAssetsCurrency_CostsLessThanACarriedOverPrice()
    {
        var record = new AssetRecord { Category = "pump", Service = new() { Currency = "EUR", LabourRatePerHour = 2 * BlsRate } };
        var classes = TagClassCatalogue.BuiltIn.All.Select(c => c with { Price = c.Price with { Currency = "EUR" } }).ToArray();
        var own = RecommendationEngine.Recommend(record, new(IncludeAll: true, IncludeQuestions: false), Context(classes));
        var carried = RecommendationEngine.Recommend(record, new(IncludeAll: true, IncludeQuestions: false));
        foreach (var c in carried.Candidates)
        {
            var same = own.Candidates.Single(o => o.TagClass.Id == c.TagClass.Id);
            Assert.True(same.Cost.PresentValue < c.Cost.PresentValue, c.TagClass.Id);
        }
    }

    private static RecommendationAnswer Recommend(AssetRecord record) => RecommendationEngine.Recommend(record, new(IncludeAll: true, IncludeQuestions: false));

    private static RecommendationContext Context(IReadOnlyList<TagClass> classes) => new(classes, "own", RangeCalibrations.None, null);
}
