using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>Single situations of the prediction.</summary>
public sealed class RangePredictionTests
{
    [Fact]
    public void Power_StatedAboveTheLimit_IsCappedAndSaidSo()
    {
        var reading = TestRows.Reading("us") with { EirpDbm = 40 };
        var line = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Cardboard), reading).Explain()[0];
        // 47 CFR 15.247 (read): 4 W EIRP.
        Assert.Equal(36.02, line.ValueDb, 0.01);
        Assert.Contains("40 dBm EIRP (stated) limited to 36.02 dBm", line.Note, StringComparison.Ordinal);
        Assert.Contains("47 CFR 15.247", line.Source, StringComparison.Ordinal);
    }

    [Fact]
    public void Region_WithTwoBands_UsesTheFirstAndOffersTheOther()
    {
        var p = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Cardboard), TestRows.Reading("eu") with { EirpDbm = 45 });
        Assert.Equal(866.5, p.Scene.FrequencyMhz);
        var upper = Assert.Single(p.InOtherBands());
        Assert.Equal(918, upper.Scene.FrequencyMhz);
        // 4 W ERP against 2 W ERP (EN 302 208, read): 3 dB more for 0.5 dB more path loss.
        Assert.True(upper.P50M > p.P50M);
    }

    [Theory]
    [InlineData(ReaderKind.Phone, "uhf")]
    [InlineData(ReaderKind.Fixed, "hf")]
    public void Reader_OfTheWrongKind_IsAnOutcomeNotARange(ReaderKind reader, string tag)
    {
        var c = tag == "uhf" ? TestRows.LargeLabel : TestRows.HfLabel;
        var p = RangePredictor.Predict(c, TestRows.On(TestRows.Air), TestRows.Reading(reader: reader));
        Assert.Equal(RangeLimit.WrongReader, p.LimitedBy);
        Assert.Equal(0, p.P90M);
        Assert.Equal(0, p.ReadProbability(0.01, 100));
        Assert.Equal(0, p.RangeAtProbability(0.5, 3));
        Assert.Equal(p.Estimate.DoesNotReadBecause, Assert.Single(p.Explain()).Note);
        Assert.Contains("has no", p.Estimate.DoesNotReadBecause, StringComparison.Ordinal);
    }

    [Fact]
    public void Telephone_WithAStatedPower_StillHasNoUhfSide()
    {
        var reading = TestRows.Reading(reader: ReaderKind.Phone) with { EirpDbm = 30 };
        Assert.Equal(RangeLimit.WrongReader, RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Air), reading).LimitedBy);
    }

    [Fact]
    public void Wall_WithMetalBehind_CountsAsSpacing()
    {
        // 10 mm of air-like wall before metal is the same as a 10 mm spacer on the metal, but for the adhesive layer.
        var wall = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Air, 10, TestRows.Steel), TestRows.Reading());
        var spacer = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Steel, standoffMm: 10.1), TestRows.Reading());
        Assert.Equal(spacer.P50M, wall.P50M, 1e-9);
    }

    [Fact]
    public void Wall_WithWaterBehind_LosesMoreTheThinnerItIs()
    {
        var thin = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Polypropylene, 2, TestRows.Water), TestRows.Reading());
        var thick = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Polypropylene, 30, TestRows.Water), TestRows.Reading());
        var none = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Polypropylene, 2), TestRows.Reading());
        Assert.True(thin.P50M < thick.P50M);
        Assert.True(thick.P50M < none.P50M);
    }

    [Fact]
    public void Plate_ShrinkingToNothing_LeadsContinuouslyToTheOffMetalGain()
    {
        double previous = double.NaN;
        for (var side = 300.0; side >= 0.5; side *= 0.97)
        {
            var gain = RangePredictor.Predict(TestRows.HardTag, TestRows.On(TestRows.Steel, lengthMm: side, widthMm: side), TestRows.Reading()).Gain.TotalDbi;
            if (!double.IsNaN(previous))
                Assert.InRange(previous - gain, -1e-9, 0.5);
            previous = gain;
        }

        Assert.Equal(3 - 12, previous, 0.05);
    }

    [Fact]
    public void StandoffCurve_WithMountingHeight_StopsThere()
    {
        var surface = TestRows.On(TestRows.Steel) with { MaxHeightMm = 12 };
        var curve = RangePredictor.Predict(TestRows.LargeLabel, surface, TestRows.Reading()).StandoffCurve();
        Assert.Equal(0, curve[0].AddedStandoffMm);
        Assert.False(curve[0].Reads);
        Assert.Equal(12 - TestRows.LargeLabel.Size.HeightMm, curve[^1].AddedStandoffMm, 1e-9);
        Assert.True(curve[^1].Reads);
        Assert.True(curve.Zip(curve.Skip(1)).All(x => x.Second.P50M >= x.First.P50M));
    }

    [Fact]
    public void BatteryAssistedTag_OnAHandheld_IsLimitedByItsReply()
    {
        // Kuester et al. 2010 and 2011 (abstracts read): with sensitive tags the reply becomes the limit.
        var c = TagClassCatalogue.BuiltIn.All.First(t => t.Antenna.BatteryAssisted);
        var p = RangePredictor.Predict(c, TestRows.On(TestRows.Steel), TestRows.Reading(reader: ReaderKind.Handheld));
        Assert.Equal(RangeLimit.Return, p.LimitedBy);
    }

    // A linear reader with the tag at any roll: the best tenth is nearly aligned, the worst tenth badly crossed.
    [Fact]
    public void UnknownOrientation_WithALinearReader_WidensTheSpreadDownwards()
    {
        var aligned = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Cardboard),
            TestRows.Reading(polarization: ReaderPolarization.Linear, orientation: TagOrientation.Aligned));
        var any = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(TestRows.Cardboard),
            TestRows.Reading(polarization: ReaderPolarization.Linear, orientation: TagOrientation.Any));
        Assert.True(any.P90M / any.P10M > aligned.P90M / aligned.P10M);
        Assert.True(Math.Log(any.P50M / any.P10M) > Math.Log(any.P90M / any.P50M));
        Assert.True(any.P50M < aligned.P50M);
    }

    // Griffin et al. 2006 (abstract read, table from memory): gain penalties of one folded dipole, each antenna re-tuned; the model
    // without its detuning must stay within the +-5 dB that the evidence leaves.
    [Theory]
    [InlineData("cardboard", 4, 0.9)]
    [InlineData("wood", 18, 4.7)]
    public void Penalty_OnSolidMaterials_IsWithinFiveDecibelsOfTheEvidence(string material, double mm, double penaltyDb)
    {
        var m = TestRows.Materials.First(x => x.Id == material);
        var gain = RangePredictor.Predict(TestRows.LargeLabel, TestRows.On(m, mm), TestRows.Reading()).Gain;
        Assert.InRange(gain.ReferenceDbi - gain.TotalDbi, penaltyDb - 5, penaltyDb + 5);
    }
}
