using System.Numerics;
using CsCheck;
using TagService.Domain.Radio;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Radio;

/// <summary>The single effects of an object on an antenna.</summary>
public sealed class OnObjectTests
{
    // Antenna on a half-space: eps_eff = (eps + 1)/2, resonance f/f0 = 1/sqrt(eps_eff) (standard quasi-static result, from memory;
    // values computed with the permittivities of ITU-R P.2040-3).
    [Theory]
    [InlineData(1.3, 0.932)]
    [InlineData(1.99, 0.818)] // wood
    [InlineData(2.58, 0.747)] // chipboard
    [InlineData(2.73, 0.732)] // plasterboard
    [InlineData(3.91, 0.638)] // brick
    [InlineData(5.24, 0.566)] // concrete
    [InlineData(6.31, 0.523)] // glass
    public void Loading_OnAHalfSpace_ShiftsTheResonanceAsTheTextbook(double eps, double ratio)
    {
        var k = (eps - 1) / (eps + 1);
        Assert.Equal(ratio, 1 / Math.Sqrt(DipoleOnObject.EffectivePermittivity(k, k, 0, 100).Real), 0.001);
        // Behind the layer the same material: its thickness does not matter.
        Assert.Equal(ratio, 1 / Math.Sqrt(DipoleOnObject.EffectivePermittivity(k, k, 0, 1).Real), 0.001);
    }

    [Fact]
    public void Loading_ThickerOrNearer_OnlyGrows() =>
        Gen.Select(Gen.Double[1, 80], Gen.Double[0, 20], Gen.Double[0, 50], Gen.Double[0, 5]).Sample((eps, h, t, more) =>
        {
            var k = (eps - 1) / (eps + 1);
            var here = DipoleOnObject.EffectivePermittivity(k, 0, h, t).Real;
            Assert.True(DipoleOnObject.EffectivePermittivity(k, 0, h, t + more).Real >= here - 1e-12);
            Assert.True(DipoleOnObject.EffectivePermittivity(k, 0, h + more, t).Real <= here + 1e-12);
            Assert.True(here >= 1 - 1e-12);
        });

    // De Donno et al., PIER C 45, 2013 (abstract read): 22 m on foam, 5 m on wood: 12.9 dB, taken as the largest loss by detuning.
    [Fact]
    public void Detuning_AnyLoading_StaysAboveThePublishedWorst() =>
        Gen.Select(Gen.Double[1, 80], Gen.Double[10, 400]).Sample((eps, bandwidth) =>
        {
            var loss = -DipoleOnObject.DetuningDb(eps, 915, bandwidth);
            Assert.InRange(loss, 0, (20 * Math.Log10(22.0 / 5)) + 0.3);
            Assert.True(-DipoleOnObject.DetuningDb(eps * 1.05, 915, bandwidth) >= loss);
            Assert.True(-DipoleOnObject.DetuningDb(eps, 915, bandwidth * 1.2) <= loss);
        });

    // A shift of half the bandwidth costs half the power: that is what the bandwidth means.
    [Fact]
    public void Detuning_HalfTheBandwidth_CostsThreeDecibels()
    {
        var loading = PlanningValues.TunedPermittivity / Math.Pow(1 - (25 / 915.0), 2);
        Assert.Equal(-3.01, DipoleOnObject.DetuningDb(loading, 915, 50), 0.15);
    }

    [Fact]
    public void Metal_QuarterAndHalfWave_HaveNoStep()
    {
        foreach (var h in new[] { 0.25, 0.5 })
        {
            var (below, above) = (Sum(h - 1e-7), Sum(h + 1e-7));
            Assert.Equal(below, above, 1e-4);
        }

        Assert.Equal(0, Sum(0.5));

        static double Sum(double h)
        {
            var (image, reactance) = DipoleOnObject.MetalDb(h, 60);
            return image + reactance;
        }
    }

    // Slow oracle for the layer on a half-space: the bounces inside the layer added one by one.
    [Fact]
    public void LayerOnHalfSpace_SumOfBounces_Agrees() =>
        Gen.Select(Gen.Double[1.2, 9], Gen.Double[0, 1], Gen.Double[1, 80], Gen.Double[0, 40], Gen.Double[0.1, 120]).Sample((e1, l1, e2, l2, mm) =>
        {
            Permittivity layer = new(e1, l1), behind = new(e2, l2);
            Complex n1 = layer.Index, n2 = behind.Index;
            Complex r01 = (1 - n1) / (1 + n1), r12 = (n1 - n2) / (n1 + n2);
            var round = Complex.Exp(new Complex(0, -2) * (2 * Math.PI * mm / 327.6418) * n1);
            Complex sum = r01, bounce = (1 - (r01 * r01)) * r12 * round;
            for (var i = 0; i < 400; i++)
            {
                sum += bounce;
                bounce *= -r01 * r12 * round;
            }

            Assert.Equal(0, (sum - LayeredReflection.LayerOnHalfSpace(layer, mm, behind, 915)).Magnitude, 1e-5);
        });

    // Liquid before the antenna: |1 + r exp(-2jkh)|; water at no distance leaves 2/(1 + n) of the field (Fresnel).
    [Fact]
    public void HalfSpace_WaterAtContact_LeavesTheTransmittedField()
    {
        var n = WaterPermittivity.Evaluate(25, 915).Index;
        var r = LayeredReflection.HalfSpace(WaterPermittivity.Evaluate(25, 915));
        Assert.Equal(20 * Math.Log10((2 / (1 + n)).Magnitude), DipoleOnObject.HalfSpaceDb(r, 0), 1e-9);
        Assert.Equal(-13.8, DipoleOnObject.HalfSpaceDb(r, 0), 0.1);
    }

    // HF before metal: the reader coil's image taken off, by the field formula itself, at a working distance of one radius.
    [Theory]
    [InlineData(0.025, 2)]
    [InlineData(0.025, 15)]
    [InlineData(0.3, 10)]
    public void HfCoil_BeforeMetal_LosesWhatTheImageCancels(double radiusM, double heightMm)
    {
        var left = 1 - (HfLoop.FieldAPerM(radiusM, 1, radiusM + (2 * heightMm / 1000)) / HfLoop.FieldAPerM(radiusM, 1, radiusM));
        var expected = (20 * Math.Log10(left)) - (PlanningValues.HfMetalDetuningDb * (1 - left));
        var coil = TestRows.NfcDisc.Antenna with { StandoffMm = heightMm };
        Assert.Equal(expected, HfOnObject.Of(coil, TestRows.On(TestRows.Steel), radiusM).MetalDb, 1e-9);
    }

    // A coil of a quarter of the card's area needs four times the field: 12 dB (induced voltage goes with area).
    [Fact]
    public void HfCoil_QuarterOfTheCard_NeedsTwelveDecibelsMore()
    {
        var coil = TestRows.NfcDisc.Antenna with { CoilAreaMm2 = PlanningValues.CardCoilAreaMm2 / 4 };
        Assert.Equal(-12.04, HfOnObject.Of(coil, TestRows.On(TestRows.Air), 0.05).AreaDb, 0.01);
    }
}
