using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Surfaces;

/// <summary>Permittivity models against published values.</summary>
public sealed class PermittivityTests
{
    // ITU-R P.2040-1 at 9 GHz: outputs printed in the MathWorks documentation (secondary), reproduced to all digits; the constants
    // are from memory and confirmed by it.
    [Theory]
    [InlineData("concrete", 5.31, 0, 0.0326, 0.8095, 5.31, 0.19305)]
    [InlineData("brick", 3.75, 0, 0.038, 0, 3.75, 0.038)]
    [InlineData("plasterboard", 2.94, 0, 0.0116, 0.7076, 2.94, 0.054914)]
    [InlineData("wood", 1.99, 0, 0.0047, 1.0718, 1.99, 0.049528)]
    [InlineData("glass", 6.27, 0, 0.0043, 1.1925, 6.27, 0.059075)]
    [InlineData("ceiling board", 1.50, 0, 0.0005, 1.1634, 1.5, 0.0064437)]
    [InlineData("chipboard", 2.58, 0, 0.0217, 0.78, 2.58, 0.12044)]
    [InlineData("floorboard", 3.66, 0, 0.0044, 1.3515, 3.66, 0.085726)]
    public void Itu_P2040Edition1At9GHz_MatchesThePrintedOutputs(string material, double a, double b, double c, double d, double real, double sigma)
    {
        var p = ItuPermittivity.Evaluate([a, b, c, d], 9000);
        Assert.True(Math.Abs(p.Real - real) <= real * 0.001, material);
        Assert.Equal(sigma, ItuPermittivity.ConductivitySPerM([a, b, c, d], 9000), sigma * 0.001);
        Assert.Equal(sigma, p.ConductivitySPerM(9000), sigma * 0.001);
    }

    // ITU-R P.2040-3 at 0.9 GHz (constants secondary, values computed): conductivity and attenuation.
    [Theory]
    [InlineData(5.24, 0, 0.0462, 0.7822, 0.04254, 0.8497, 30.3)] // concrete
    [InlineData(3.91, 0, 0.0238, 0.16, 0.02340, 0.4674, 19.3)] // brick
    [InlineData(2.73, 0, 0.0085, 0.9395, 0.00770, 0.1538, 7.62)] // plasterboard
    [InlineData(1.99, 0, 0.0047, 1.0718, 0.00420, 0.0838, 4.87)] // wood
    [InlineData(6.31, 0, 0.0036, 1.3394, 0.00313, 0.0624, 2.04)] // glass
    [InlineData(1.48, 0, 0.0011, 1.0750, 0.00098, 0.0196, 1.32)] // ceiling board
    [InlineData(2.58, 0, 0.0217, 0.7800, 0.01999, 0.3992, 20.3)] // chipboard
    [InlineData(7.074, 0, 0.0055, 0.9262, 0.00499, 0.0996, 3.07)] // marble
    public void Itu_P2040Edition3At900MHz_MatchesTheTable(double a, double b, double c, double d, double sigma, double loss, double dbPerM)
    {
        var p = PermittivityCalculation.Evaluate(new() { Model = PermittivityFormula.ItuP2040, Coefficients = [a, b, c, d] }, 900);
        Assert.Equal(a, p.Real, 1e-9);
        Assert.Equal(sigma, p.ConductivitySPerM(900), 0.000006 + (sigma * 0.001));
        Assert.Equal(loss, p.Loss, 0.0003 + (loss * 0.002));
        Assert.Equal(dbPerM, p.AttenuationDbPerM(900), dbPerM * 0.005);
    }

    // Loss through one slab at normal incidence, ITU-R P.2040 section 2.2.2, 0.9 GHz (computed).
    [Theory]
    [InlineData(5.24, 0, 0.0462, 0.7822, 200, 7.45)]
    [InlineData(5.24, 0, 0.0462, 0.7822, 100, 5.05)]
    [InlineData(3.91, 0, 0.0238, 0.16, 100, 2.81)]
    [InlineData(2.73, 0, 0.0085, 0.9395, 12.5, 0.31)]
    [InlineData(1.99, 0, 0.0047, 1.0718, 30, 0.44)]
    [InlineData(6.31, 0, 0.0036, 1.3394, 6, 0.39)]
    [InlineData(2.58, 0, 0.0217, 0.78, 18, 0.78)]
    public void Slab_ThroughLoss_MatchesTheTable(double a, double b, double c, double d, double mm, double db) =>
        Assert.Equal(db, LayeredReflection.SlabLossDb(ItuPermittivity.Evaluate([a, b, c, d], 900), mm, 900), 0.006);

    // The slab is a layer with air behind: what is not reflected or lost goes through (energy, no loss in the material).
    [Fact]
    public void Layer_LosslessWithAirBehind_ConservesEnergy()
    {
        var slab = new Permittivity(4, 0);
        var r = LayeredReflection.LayerOnHalfSpace(slab, 23, Permittivity.Air, 900).Magnitude;
        var through = Math.Pow(10, -LayeredReflection.SlabLossDb(slab, 23, 900) / 10);
        Assert.Equal(1, (r * r) + through, 1e-9);
    }

    // Pure water, 25 degrees, 0.9 GHz: two independent Debye sets give 78.14 and 78.24, 3.40 (secondary and from memory).
    [Theory]
    [InlineData(25, 900, 78.18, 3.40)]
    [InlineData(25, 866, 78.15, 3.27)]
    [InlineData(25, 915, 78.14, 3.46)]
    [InlineData(20, 900, 79.86, 3.96)]
    public void Water_NineHundredMegahertz_MatchesTwoDebyeSets(double celsius, double mhz, double real, double loss)
    {
        var p = WaterPermittivity.Evaluate(celsius, mhz);
        Assert.Equal(real, p.Real, 0.1);
        Assert.Equal(loss, p.Loss, 0.05);
    }

    // CRC Handbook fit (1986, secondary): static permittivity 78.54 at 25 degrees.
    [Fact]
    public void Water_StaticAt25C_MatchesTheHandbook() => Assert.Equal(78.54, WaterPermittivity.StaticValue(25), 0.3);

    // Tissue after Gabriel (1996), parameters as IFAC publishes them (secondary): values of the IFAC page at 915 MHz from memory
    // (muscle 54.997/0.948, skin 41.329/0.872), the others computed.
    [Theory]
    [InlineData("muscle", 866.5, 55.11, 0.932)]
    [InlineData("muscle", 900, 55.03, 0.943)]
    [InlineData("muscle", 915, 54.997, 0.948)]
    [InlineData("dry-skin", 866.5, 41.58, 0.856)]
    [InlineData("dry-skin", 900, 41.41, 0.867)]
    [InlineData("dry-skin", 915, 41.329, 0.872)]
    [InlineData("fat", 866.5, 5.467, 0.0503)]
    [InlineData("fat", 900, 5.462, 0.0510)]
    [InlineData("fat", 915, 5.460, 0.0514)]
    public void Tissue_Gabriel_MatchesIfac(string tissue, double mhz, double real, double sigma)
    {
        var p = TissuePermittivity.Evaluate(TissuePermittivity.Named(tissue), mhz);
        Assert.Equal(real, p.Real, real * 0.005);
        Assert.Equal(sigma, p.ConductivitySPerM(mhz), sigma * 0.005);
    }

    // Plane wave from air into water, muscle and concrete: 1 - |r|^2 in dB; attenuation within (computed).
    [Fact]
    public void HalfSpace_EntryLoss_MatchesTheTable()
    {
        var water = WaterPermittivity.Evaluate(25, 900);
        var muscle = TissuePermittivity.Evaluate(TissuePermittivity.Muscle, 900);
        Assert.Equal(4.38, EntryDb(water), 0.03);
        Assert.Equal(3.92, EntryDb(muscle), 0.03);
        Assert.Equal(0.74, EntryDb(ItuPermittivity.Evaluate([5.24, 0, 0.0462, 0.7822], 900)), 0.01);
        Assert.Equal(0.315, water.AttenuationDbPerM(900) / 100, 0.003);
        Assert.Equal(2.05, muscle.AttenuationDbPerM(900) / 100, 0.01);

        static double EntryDb(Permittivity p) => -10 * Math.Log10(1 - Math.Pow(LayeredReflection.HalfSpace(p).Magnitude, 2));
    }

    [Fact]
    public void Evaluate_ItuRowWithoutCoefficients_SaysSo() =>
        Assert.Throws<ArgumentException>(() => PermittivityCalculation.Evaluate(new() { Model = PermittivityFormula.ItuP2040 }, 900));

    [Fact]
    public void Evaluate_UnknownTissue_NamesTheKnownOnes()
    {
        var e = Assert.Throws<ArgumentException>(() =>
            PermittivityCalculation.Evaluate(new() { Model = PermittivityFormula.ColeCole4, Tissue = "bark" }, 900));
        Assert.Contains("muscle", e.Message, StringComparison.Ordinal);
    }
}
