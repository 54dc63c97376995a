using System.Numerics;
using TagService.Domain.Radio;

namespace TagService.Domain.Tests.Radio;

/// <summary>
/// The metal image. Formulas after Balanis, Antenna Theory (from memory); the tables are computed references made by integrating
/// the pattern and the induced EMF with another program; here both integrations are done again as the slow oracle.
/// </summary>
public sealed class ImageDipoleTests
{
    [Theory]
    [InlineData(0.003, 0.000189, 7.500)]
    [InlineData(0.005, 0.000526, 7.499)]
    [InlineData(0.01, 0.002104, 7.497)]
    [InlineData(0.02, 0.008394, 7.486)]
    [InlineData(0.05, 0.051535, 7.412)]
    [InlineData(0.10, 0.193419, 7.145)]
    [InlineData(0.15, 0.391092, 6.694)]
    [InlineData(0.25, 0.767988, 5.208)]
    [InlineData(0.50, 0.641336, 6.237)]
    public void Dipole_OverMetal_MatchesTheTable(double heightWavelengths, double factor, double directivity)
    {
        Assert.Equal(factor, ImageDipole.RadiationFactor(heightWavelengths), Math.Max(5e-7, factor * 1e-4));
        Assert.Equal(directivity, ImageDipole.Directivity(heightWavelengths), 0.002);
    }

    // Balanis, Antenna Theory, section 4.8.2 (from memory): D0 goes to 7.5 as the height goes to 0.
    [Fact]
    public void Directivity_HeightToZero_IsSevenAndAHalf() =>
        Assert.Equal(7.5, ImageDipole.Directivity(1e-5), 0.001);

    // The closed form against numerical integration of the pattern over the half-space above the metal:
    // power ~ integral of (1 - sin^2 theta sin^2 phi) 4 sin^2(kh cos theta) sin theta.
    [Theory]
    [InlineData(0.02)]
    [InlineData(0.0398)] // on either side of where the series takes over
    [InlineData(0.1)]
    [InlineData(0.3)]
    [InlineData(0.7)]
    public void RadiationFactor_PatternIntegral_Agrees(double heightWavelengths)
    {
        double sum = 0, kh = 2 * Math.PI * heightWavelengths;
        const int n = 20_000;
        for (var i = 0; i < n; i++)
        {
            var theta = (i + 0.5) * Math.PI / 2 / n;
            var (sin, cos) = Math.SinCos(theta);
            // Mean over phi of 1 - sin^2 theta sin^2 phi is 1 - sin^2 theta/2.
            sum += (1 - (sin * sin / 2)) * 2 * Math.Pow(Math.Sin(kh * cos), 2) * sin * Math.PI / 2 / n;
        }

        Assert.Equal(sum, ImageDipole.RadiationFactor(heightWavelengths), 1e-7);
    }

    // Textbook values (from memory), integrated independently in the evidence.
    [Theory]
    [InlineData(0, 73.13, 42.5)]
    [InlineData(0.25, 40.79, -28.35)]
    [InlineData(0.5, -12.53, -29.93)]
    [InlineData(1.0, 4.01, 17.7)]
    public void MutualImpedance_ParallelHalfWave_MatchesTheTextbook(double distanceWavelengths, double ohm, double reactance)
    {
        var z = MutualImpedance.ParallelHalfWave(distanceWavelengths);
        Assert.Equal(ohm, z.Real, 0.1);
        Assert.Equal(reactance, z.Imaginary, 0.1);
    }

    // Slow oracle: the induced EMF integrated along the dipole, Z21 = j 30 int (e^-jkR1/R1 + e^-jkR2/R2) sin(k(l/2 - |z|)) dz.
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.06)]
    [InlineData(0.2)]
    [InlineData(0.45)]
    [InlineData(1.3)]
    public void MutualImpedance_InducedEmfIntegral_Agrees(double distanceWavelengths)
    {
        const int n = 200_000;
        const double eta4Pi = 376.730313668 / (4 * Math.PI);
        double k = 2 * Math.PI, h = 0.25;
        Complex sum = 0;
        for (var i = 0; i < n; i++)
        {
            var z = -h + ((i + 0.5) * 2 * h / n);
            double r1 = double.Hypot(distanceWavelengths, z - h), r2 = double.Hypot(distanceWavelengths, z + h);
            var field = (Complex.Exp(new Complex(0, -k * r1)) / r1) + (Complex.Exp(new Complex(0, -k * r2)) / r2);
            sum += field * Math.Sin(k * (h - Math.Abs(z))) * (2 * h / n);
        }

        var expected = new Complex(0, eta4Pi) * sum;
        var z21 = MutualImpedance.ParallelHalfWave(distanceWavelengths);
        Assert.Equal(expected.Real, z21.Real, 0.002);
        Assert.Equal(expected.Imaginary, z21.Imaginary, 0.002);
    }

    // Half-wave dipole over metal relative to itself in free space, R_L 1 ohm, chip resistance fixed (computed rows, rounded to 0.1 dB).
    [Theory]
    [InlineData(915, new[] { 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30.0 },
        new[] { -22.4, -16.4, -12.9, -10.4, -8.5, -6.9, -4.5, -2.7, -1.2, 0.5, 2.5, 4.8 })]
    [InlineData(866.5, new[] { 1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 30.0 },
        new[] { -22.8, -16.8, -13.3, -10.8, -8.9, -7.4, -5.0, -3.1, -1.6, 0.1, 2.1, 4.5 })]
    public void RelativeGain_FixedChipResistance_MatchesTheRows(double mhz, double[] heightsMm, double[] gainDb)
    {
        for (var i = 0; i < heightsMm.Length; i++)
            Assert.Equal(gainDb[i], ImageDipole.RelativeGainDb(heightsMm[i] * mhz / 299_792.458, 0), 0.08);
    }

    // The rows above are an optimistic bound for a label: the estimate with reactive detuning must always be below, for any bandwidth.
    [Theory]
    [InlineData(15)]
    [InlineData(60)]
    [InlineData(150)]
    [InlineData(400)]
    public void LabelOverMetal_AnyBandwidth_StaysBelowTheOptimisticBound(double bandwidthMhz)
    {
        for (var h = 0.0001; h <= 0.25; h += 0.0005)
        {
            var (image, reactance) = DipoleOnObject.MetalDb(h, bandwidthMhz);
            Assert.True(image + reactance < ImageDipole.RelativeGainDb(h, 0), $"h = {h} lambda");
        }
    }

    // The reactance used is an upper envelope of the mutual reactance of dipole and image while that is positive.
    [Fact]
    public void ReactanceEnvelope_OverHeight_CoversTheMutualReactance()
    {
        for (var h = 0.0; h < 0.06; h += 0.001)
        {
            var envelope = ImageDipole.FreeReactanceOhm * Math.Exp(-17 * h);
            Assert.True(envelope >= MutualImpedance.ParallelHalfWave(2 * h).Imaginary - 0.1, $"h = {h} lambda");
        }
    }

    // Griffin et al., IEEE AWPL 5, 2006 (abstract read): attachment can cost more than 20 dB on both legs together; the aluminium
    // row of their table (10.4 dB a leg, from memory) corresponds to about 4 mm of spacing.
    [Fact]
    public void LabelOverMetal_FourMillimetres_LosesMoreThanTwentyDecibelsOnBothLegs()
    {
        var (image, reactance) = DipoleOnObject.MetalDb(4 / 327.64, 150);
        Assert.True(2 * (image + reactance) < -20);
        Assert.InRange(image + reactance, -10.4 - 5, -10.4 + 5);
    }
}
