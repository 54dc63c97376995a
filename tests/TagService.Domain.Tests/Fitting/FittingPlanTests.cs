using TagService.Domain.Fitting;
using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;

namespace TagService.Domain.Tests.Fitting;

/// <summary>Plans over every profile of the product: nothing of the recommendation gets lost on its way to the fitter.</summary>
public sealed class FittingPlanTests
{
    public static TheoryData<string> Profiles => [.. AssetProfiles.Table.All.Select(p => p.Id)];

    [Theory]
    [MemberData(nameof(Profiles))]
    public void For_EveryProfile_KeepsEveryCautionAndEveryStep(string profile)
    {
        var plan = FittingPlan.For(Record(profile), RecommendationContext.BuiltIn);
        if (plan is not PlannedFitting fitting)
        {
            Assert.Equal(plan.Answer.Cautions, plan.CautionsFirst);
            Assert.NotEmpty(Assert.IsType<NoFitting>(plan).Because.Summary);
            return;
        }

        PlannedStep[] steps = [.. fitting.Preparing, .. fitting.Fixing];
        var shown = fitting.CautionsFirst.Concat(fitting.CautionsOfTheReader).Concat(steps.Select(s => s.Caution).OfType<Caution>());
        Assert.Equal(plan.Answer.Cautions.Select(c => c.Id).Order(), shown.Select(c => c.Id).Distinct().Order());

        // The last three of every method are the check and the record, which have parts of their own.
        var instruction = FittingInstruction.For(plan.Asset, fitting.TagClass, fitting.Method);
        Assert.Equal(instruction.StepIds.SkipLast(3).Order(), steps.Select(s => s.Id).Order());
        Assert.Equal(fitting.Choice.Steps.SkipLast(3).Order(), steps.Select(s => s.Text).Order());
    }

    [Fact]
    public void For_ExplosiveAtmosphereWithoutCertificate_FitsNothingAndSaysWhatWouldHaveToChange()
    {
        var plan = FittingPlan.For(
            new() { Category = "centrifugal pump", Environment = new() { HazardousArea = new() { Zone = "1", Group = "IIB", TemperatureClass = "T4" } } },
            RecommendationContext.BuiltIn);

        var none = Assert.IsType<NoFitting>(plan);
        Assert.Contains(none.CautionsFirst, c => c.Id == "explosive-atmosphere");
        Assert.NotEmpty(none.Because.Changes);
    }

    /// <summary>A thin record leaves the surface to assumption: the fitter is told to look at it before starting.</summary>
    [Fact]
    public void For_ThinRecord_HasTheAssumedSurfaceConfirmedOnTheSpot()
    {
        var thin = FittingPlan.For(new() { Category = "ladder" }, RecommendationContext.BuiltIn);
        var full = FittingPlan.For(
            new()
            {
                Category = "ladder",
                Surface = new() { Material = "aluminium", Coating = "bare", CurvatureRadiusMm = 0, ThicknessMm = 3, Backing = "air" },
                Mounting = new() { LengthMm = 200, WidthMm = 60, MaxHeightMm = 20, AllowDrilling = false },
                Environment = new() { ApplicationTemperatureC = 20 },
            },
            RecommendationContext.BuiltIn);

        Assert.Contains(thin.ToConfirm, a => a.Pointer == "/surface/material");
        Assert.DoesNotContain(full.ToConfirm, a => a.Pointer.StartsWith("/surface", StringComparison.Ordinal));
    }

    /// <summary>Spares: 3 % planned, rounded up, one at least; worked out by hand.</summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    [InlineData(33, 1)]
    [InlineData(34, 2)]
    [InlineData(200, 6)]
    public void Spares_OfATagClass_AreThePlannedShareRoundedUp(int toFit, int spares) => Assert.Equal(spares, WorklistTotals.Spares(toFit));

    [Fact]
    public void Totals_OfAllProfiles_CountEachPlanOnce()
    {
        var plans = AssetProfiles.Table.All.Select(p => FittingPlan.For(Record(p.Id), RecommendationContext.BuiltIn)).OfType<PlannedFitting>().ToList();

        var totals = WorklistTotals.Of(plans);

        Assert.Equal(plans.Count, totals.Tags.Sum(t => t.ToFit));
        Assert.Equal(plans.Sum(p => p.Choice.Minutes), totals.Minutes, 6);
        Assert.Equal(plans.Count, totals.Kit.Single(k => k.Item.Id == "reader").ForAssets);
        var cloths = plans.Count(p => p.Kit.Any(k => k.Id == "lint-free-cloth"));
        Assert.Equal(2 * (cloths + WorklistTotals.Spares(cloths)), totals.Kit.Single(k => k.Item.Id == "lint-free-cloth").Quantity);
    }

    private static AssetRecord Record(string profile) => new() { AssetId = "A-1", Category = AssetProfiles.Table[profile].Name };
}
