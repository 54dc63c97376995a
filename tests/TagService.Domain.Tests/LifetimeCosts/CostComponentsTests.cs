using CsCheck;
using TagService.Domain.LifetimeCosts;
using TagService.Domain.Reliability;

namespace TagService.Domain.Tests.LifetimeCosts;

/// <summary>What must hold of every cost component; a new one in the list is covered at once.</summary>
public sealed class CostComponentsTests
{
    private static readonly Gen<CostCase> Cases =
        from price in Gen.Double[0, 50]
        from consumables in Gen.Double[0, 10]
        from fixing in Gen.Double[0, 60]
        from labour in Gen.Double[0, 200]
        from visit in Gen.Double[0, 240]
        from life in Gen.Double[0.1, 40]
        from rate in Gen.Double[0, 0.15]
        from sweeps in Gen.Double[0, 300]
        from range in Gen.Double[0, 15]
        from miss in Gen.Double[0, 1]
        from shape in Gen.Double[0.5, 4]
        from scale in Gen.Double[0.5, 40]
        select new CostCase
        {
            TagPrice = price,
            ConsumablesPrice = consumables,
            FixingMinutes = fixing,
            LabourRatePerHour = labour,
            VisitMinutes = visit,
            Horizon = new(life, rate),
            SweepsPerYear = sweeps,
            RangeM = range,
            MissProbability = miss,
            Life = new Weibull(shape, scale),
            DiscountedRenewals = 0,
        }.With(new Weibull(shape, scale));

    [Fact]
    public void Components_IdsAndNames_AreUniqueAndGiven()
    {
        Assert.Equal(CostComponents.All.Count, CostComponents.All.Select(c => c.Id).Distinct().Count());
        Assert.All(CostComponents.All, c => Assert.Matches("^[a-z]+(-[a-z]+)*$", c.Id));
        Assert.All(CostComponents.All, c => Assert.NotEmpty(c.Name));
    }

    [Fact]
    public void Components_AnyCase_AreFiniteAndNotNegativeAndSayHow() =>
        Cases.Sample(c => CostComponents.All.All(k =>
            double.IsFinite(k.PresentValue(c)) && k.PresentValue(c) >= 0 && k.Working(c).Length > 0));

    /// <summary>To the last bit: a part that is in one list and not in the other would cost nothing or not be shown.</summary>
    [Fact]
    public void Total_AnyCase_IsTheSumOfAllParts() =>
        Cases.Sample(c => CostComponents.Total(c) == CostComponents.All.Aggregate(0.0, (sum, part) => sum + part.PresentValue(c)));

    [Fact]
    public void Components_DearerTagOrLabour_NeverCheaper() =>
        Cases.Sample(c => CostComponents.All.All(k =>
            k.PresentValue(c with { TagPrice = c.TagPrice + 1 }) >= k.PresentValue(c)
            && k.PresentValue(c with { LabourRatePerHour = c.LabourRatePerHour + 1 }) >= k.PresentValue(c)
            && k.PresentValue(c with { VisitMinutes = c.VisitMinutes + 1 }) >= k.PresentValue(c)
            && k.PresentValue(c with { SweepsPerYear = c.SweepsPerYear + 1 }) >= k.PresentValue(c)));

    [Fact]
    public void Components_HigherDiscountRate_NeverDearer() =>
        Cases.Sample(c =>
        {
            var dearer = new ServiceHorizon(c.Horizon.LifeYears, c.Horizon.DiscountRate + 0.02);
            var later = (c with { Horizon = dearer }).With(c.Life);
            return CostComponents.All.All(k => k.PresentValue(later) <= k.PresentValue(c) + 1e-9);
        });

    [Fact]
    public void Components_LongerTagLife_NeverDearer() =>
        Cases.Sample(c =>
        {
            var longer = c.With(c.Life with { ScaleYears = c.Life.ScaleYears * 1.5 });
            return CostComponents.All.All(k => k.PresentValue(longer) <= k.PresentValue(c) + 1e-9);
        });

    [Fact]
    public void Of_AnyCase_PartsAddUpInsideTheirSpread() =>
        Cases.Sample(c =>
        {
            var cost = LifetimeCost.Of(c, new LifeEstimate(c.Life, 3, 1), c.TagPrice * 0.8, c.TagPrice * 1.3, "EUR");
            return Math.Abs(cost.Components.Sum(p => p.PresentValue) - cost.PresentValue) < 1e-9 * (1 + cost.PresentValue)
                && cost.P10 <= cost.PresentValue && cost.PresentValue <= cost.P90;
        });

    [Theory]
    [InlineData(0.20, 1.0, 4, 94.87936883117037)]
    [InlineData(3.00, 1.5, 8, 53.757629496720796)]
    [InlineData(9.00, 2.0, 15, 36.067398680990564)]
    public void Renewals_ThreeTagChoices_GiveThePublishedFormulasTotal(double tag, double shape, double scale, double total)
    {
        // c_tag + c_apply + (c_tag + c_visit) D(10), d = 3 %, apply 12, visit 38. Invented prices; D by the
        // power series in multi-precision arithmetic (mpmath 1.2.1).
        var d = Renewal.Expected(new Weibull(shape, scale), 10, Math.Log(1.03)).DiscountedRenewals;
        Assert.Equal(total, tag + 12 + ((tag + 38) * d), 1e-4);
    }
}
