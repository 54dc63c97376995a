using TagService.Domain.Radio;
using TagService.Domain.Units;

namespace TagService.Domain.Tests.Radio;

/// <summary>Free space and link budget against published examples and independently computed grids.</summary>
public sealed class LinkBudgetTests
{
    // MathWorks documentation of fspl: 10 GHz, 10 km (secondary).
    [Fact]
    public void FreeSpace_PublishedExample_IsReproduced() =>
        Assert.Equal(132.4478, FreeSpace.LossDb(10_000, 10_000), 0.001);

    // FSPL = 20 log10(4 pi r/lambda): computed reference values, not an external proof; 868/915 MHz also in Finkenzeller,
    // RFID Handbook, net of a 1.64 tag gain (29.0/49.0 and 29.5/49.5 dB, from memory).
    [Theory]
    [InlineData(866.5, 1, 31.20)]
    [InlineData(866.5, 3, 40.75)]
    [InlineData(866.5, 10, 51.20)]
    [InlineData(915, 1, 31.68)]
    [InlineData(915, 3, 41.22)]
    [InlineData(915, 10, 51.68)]
    [InlineData(2450, 1, 40.23)]
    [InlineData(2450, 3, 49.77)]
    [InlineData(2450, 10, 60.23)]
    public void FreeSpace_TagDistances_MatchTheTable(double mhz, double m, double db) =>
        Assert.Equal(db, FreeSpace.LossDb(mhz, m), 0.006);

    // 2 W ERP = 35.16 dBm EIRP, 4 W ERP = 38.17 dBm, 0.5 W ERP = 0.820 W: regulators' definition, + 2.15 dB.
    [Theory]
    [InlineData(2, PowerReference.Erp, 35.16)]
    [InlineData(4, PowerReference.Erp, 38.17)]
    [InlineData(0.5, PowerReference.Erp, 29.14)]
    [InlineData(4, PowerReference.Eirp, 36.02)]
    public void Limit_AsTheRuleStatesIt_BecomesEirp(double watts, PowerReference reference, double dbm)
    {
        var band = new RadioBand { LowMhz = 865, HighMhz = 868, LimitWatts = watts, Reference = reference, Rule = "r", Status = "read" };
        Assert.Equal(dbm, LinkBudget.LimitEirpDbm(band), 0.01);
    }

    // Forward range of a half-wave dipole (G 1.64): computed reference grid, not an external proof.
    [Theory]
    [InlineData(4, 915, -8, 0.5, 3.751)]
    [InlineData(4, 915, -10, 1, 6.678)]
    [InlineData(4, 915, -14, 0.5, 7.484)]
    [InlineData(4, 915, -18, 0.5, 11.861)]
    [InlineData(4, 915, -18, 1, 16.774)]
    [InlineData(4, 915, -24, 1, 33.469)]
    [InlineData(3.28, 866.5, -18, 0.5, 11.342)]
    [InlineData(3.28, 866.5, -22, 0.5, 17.976)]
    public void Forward_DipoleGrid_IsReproduced(double watts, double mhz, double thresholdDbm, double p, double rangeM)
    {
        var borne = LinkBudget.ForwardLossDb(
            Dbm.FromWatts(watts).Value, Decibels.FromRatio(1.64).Value, -Decibels.FromRatio(p).Value, thresholdDbm);
        Assert.Equal(rangeM, new PathModel(mhz, 1, 2).DistanceM(borne), 0.01);
    }

    // Curty et al., IEEE JSSC 40(11), 2005: 2.7 uW at 2.45 GHz, 4 W EIRP, 12 m (from memory).
    [Fact]
    public void Forward_Curty2005_IsWithinThreePercent()
    {
        var borne = LinkBudget.ForwardLossDb(Dbm.FromWatts(4).Value, 0, 0, Dbm.FromWatts(2.7e-6).Value);
        Assert.Equal(12, new PathModel(2450, 1, 2).DistanceM(borne), 12 * 0.03);
    }

    // Rokunuzzaman et al., PLOS ONE 10(7), 2015 (read): 11.9 m at 3.2 W EIRP; implied threshold minus gain about -18 dBm.
    [Fact]
    public void Forward_Rokunuzzaman2015_ImpliesMinus18()
    {
        var isotropicDbm = Dbm.FromWatts(3.2).Value - FreeSpace.LossDb(915, 11.9);
        Assert.Equal(-18.1, isotropicDbm, 1.0);
    }

    // Return range, 1 W, 6 dBi, tag 2.15 dBi, M 1/4, p 0.5 per leg, 915 MHz: computed reference values.
    [Theory]
    [InlineData(-65, 7.90)]
    [InlineData(-70, 10.54)]
    [InlineData(-75, 14.05)]
    [InlineData(-80, 18.74)]
    [InlineData(-85, 24.98)]
    [InlineData(-90, 33.32)]
    public void Return_SensitivityRow_IsReproduced(double sensitivityDbm, double rangeM)
    {
        var borne = LinkBudget.ReturnLossDb(36, 6, 2.15, 3.0103, -6.0206, sensitivityDbm);
        Assert.Equal(rangeM, new PathModel(915, 1, 2).DistanceM(borne), 0.01);
    }

    // Level at the reader when the chip is just at its threshold: computed; every dB of chip sensitivity costs two there.
    [Theory]
    [InlineData(-10, -56.0)]
    [InlineData(-18, -72.0)]
    [InlineData(-22, -80.0)]
    public void Return_AtForwardThreshold_IsTheExpectedLevel(double thresholdDbm, double levelDbm)
    {
        var forward = LinkBudget.ForwardLossDb(36, 2.15, 3.0103, thresholdDbm);
        var back = LinkBudget.ReturnLossDb(36, 6, 2.15, 3.0103, -6.0206, levelDbm);
        Assert.Equal(forward, back, 0.1);
    }

    // An -18 dBm chip (11.84 m forward) is return-limited by a -70 dBm reader and forward-limited by a -75 dBm one (computed).
    [Theory]
    [InlineData(-70, RangeLimit.Return)]
    [InlineData(-75, RangeLimit.Forward)]
    public void Calculation_ReaderSensitivity_DecidesTheLimit(double sensitivityDbm, RangeLimit limit)
    {
        var result = ReadRangeCalculation.Calculate(Dipole() with { ReaderGainDbi = 6, ReaderSensitivityDbm = sensitivityDbm });
        Assert.Equal(limit, result.LimitedBy);
        Assert.Equal(Math.Min(result.ForwardRangeM, result.ReturnRangeM!.Value), result.RangeM, 1e-12);
    }

    [Fact]
    public void Calculation_WithoutReader_GivesForwardRangeOnly()
    {
        var result = ReadRangeCalculation.Calculate(Dipole());
        Assert.Null(result.ReturnRangeM);
        Assert.Null(result.ReadProbability);
        Assert.Equal(11.84, result.RangeM, 0.01);
    }

    // Normal shadowing: P = Phi(margin/sigma); margins for 90, 95, 99 % at 3 dB: 3.84, 4.93, 6.98 dB (normal table).
    [Theory]
    [InlineData(3.84, 0.90)]
    [InlineData(4.93, 0.95)]
    [InlineData(6.98, 0.99)]
    public void Calculation_ProbabilityAtMargin_FollowsTheNormalTable(double marginDb, double probability)
    {
        var range = ReadRangeCalculation.Calculate(Dipole()).RangeM;
        var at = range * Math.Pow(10, -marginDb / 20);
        var result = ReadRangeCalculation.Calculate(Dipole() with { SigmaDb = 3, AtM = at });
        Assert.Equal(probability, result.ReadProbability!.Value, 0.001);
    }

    // Log-distance with exponent 2.2 of a retail store (Andersen, Rappaport and Yoshida 1995, secondary), 53.15 dB over a
    // 1 m reference of 31.68 dB; the other exponents computed the same way.
    [Theory]
    [InlineData(1.8, 15.6)]
    [InlineData(2.0, 11.85)]
    [InlineData(2.2, 9.46)]
    [InlineData(2.4, 7.85)]
    [InlineData(3.3, 4.47)]
    public void Calculation_PathExponent_ShortensTheRange(double exponent, double rangeM)
    {
        var result = ReadRangeCalculation.Calculate(new()
        {
            FrequencyMhz = 915,
            EirpDbm = 35.15,
            TagGainDbi = 0,
            PowerThresholdDbm = -18,
            PathExponent = exponent,
            BreakpointM = 1,
        });
        Assert.Equal(rangeM, result.RangeM, 0.05);
    }

    [Fact]
    public void Calculation_FigureOutOfRange_NamesIt()
    {
        var e = Assert.Throws<ArgumentOutOfRangeException>(() => ReadRangeCalculation.Calculate(Dipole() with { EirpDbm = double.NaN }));
        Assert.Equal("EirpDbm", e.ParamName);
    }

    private static ReadRangeInputs Dipole() => new()
    {
        FrequencyMhz = 915,
        EirpDbm = 36,
        TagGainDbi = 2.15,
        PowerThresholdDbm = -18,
        PolarizationLossDb = 3.0103,
    };
}
