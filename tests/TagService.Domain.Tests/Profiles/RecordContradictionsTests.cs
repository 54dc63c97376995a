using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Tests.Profiles;

public sealed class RecordContradictionsTests
{
    public static TheoryData<string, AssetRecord, bool> Cases => new()
    {
        { "temperature-order", Env(new() { TemperatureMinC = 50, TemperatureMaxC = 20 }), true },
        { "temperature-order", Env(new() { TemperatureMinC = 20, TemperatureMaxC = 20 }), false },
        { "peak-below-maximum", Env(new() { TemperatureMaxC = 90, PeakTemperatureC = 60 }), true },
        { "peak-below-maximum", Env(new() { TemperatureMaxC = 60, PeakTemperatureC = 60 }), false },
        { "peak-below-minimum", Env(new() { TemperatureMinC = 90, PeakTemperatureC = 60 }), true },
        { "wall-thicker-than-round", new() { Surface = new() { CurvatureRadiusMm = 10, ThicknessMm = 25 } }, true },
        { "wall-thicker-than-round", new() { Surface = new() { CurvatureRadiusMm = 10, ThicknessMm = 20 } }, false },
        { "wall-thicker-than-round", new() { Surface = new() { CurvatureRadiusMm = 0, ThicknessMm = 20 } }, false },
        { "room-wider-than-round", new() { Surface = new() { CurvatureRadiusMm = 5 }, Mounting = new() { LengthMm = 100, WidthMm = 40 } }, true },
        { "room-wider-than-round", new() { Surface = new() { CurvatureRadiusMm = 5 }, Mounting = new() { LengthMm = 1000, WidthMm = 30 } }, false },
        { "group-of-other-zone", Hazard("1", "IIIB", null), true },
        { "group-of-other-zone", Hazard("21", "IIB", null), true },
        { "group-of-other-zone", Hazard("2", "IIC", "T4"), false },
        { "group-of-other-zone", Hazard("22", "IIIC", null), false },
        { "temperature-class-of-dust-zone", Hazard("21", "IIIB", "T4"), true },
        { "hotter-than-temperature-class", Env(new() { TemperatureMaxC = 150, HazardousArea = new() { Zone = "1", TemperatureClass = "T4" } }), true },
        { "hotter-than-temperature-class", Env(new() { TemperatureMaxC = 130, HazardousArea = new() { Zone = "1", TemperatureClass = "T4" } }), false },
        { "laundered-solid", new() { Surface = new() { Material = "Edelstahl" }, Environment = new() { LaundryCycles = 10 } }, true },
        { "laundered-solid", new() { Surface = new() { Material = "Baumwolle" }, Environment = new() { LaundryCycles = 10 } }, false },
        { "sterilised-cold", Env(new() { SterilisationCycles = 100, PeakTemperatureC = 80 }), true },
        { "sterilised-cold", Env(new() { SterilisationCycles = 100, PeakTemperatureC = 134 }), false },
        { "more-sun-than-life", new() { Environment = new() { UvYears = 12 }, Service = new() { LifeYears = 10 } }, true },
        { "drilled-fluid", new() { Surface = new() { Material = "water" }, Mounting = new() { AllowDrilling = true } }, true },
        { "drilled-fluid", new() { Surface = new() { Material = "wood" }, Mounting = new() { AllowDrilling = true } }, false },
        { "shorter-than-scheme", new() { Identity = new() { Scheme = "GIAI-202", EpcBits = 96 } }, true },
        { "shorter-than-scheme", new() { Identity = new() { Scheme = "GIAI-202", EpcBits = 202 } }, false },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Find_Pair_ReportsOnlyWhatCannotBeTrue(string ruleId, AssetRecord record, bool contradictory)
    {
        var found = RecordContradictions.Find(record);
        Assert.Equal(contradictory, found.Any(c => c.RuleId == ruleId));
        Assert.All(found, c =>
        {
            Assert.StartsWith("/", c.PointerA);
            Assert.StartsWith("/", c.PointerB);
            Assert.NotEqual(c.PointerA, c.PointerB);
            Assert.Contains(c.ValueA, c.Sentence);
            Assert.EndsWith(".", c.Sentence);
        });
    }

    [Fact]
    public void Rules_EachOne_HasACaseThatItFinds()
    {
        var found = Cases.Select(c => (AssetRecord)c[1]).SelectMany(RecordContradictions.Find).Select(c => c.RuleId).Distinct();
        Assert.Equal(RecordContradictions.All.Count, found.Count());
    }

    [Fact]
    public void Find_EmptyRecord_FindsNothing() => Assert.Empty(RecordContradictions.Find(new()));

    private static AssetRecord Env(EnvironmentRecord environment) => new() { Environment = environment };

    private static AssetRecord Hazard(string zone, string group, string? t) =>
        Env(new() { HazardousArea = new() { Zone = zone, Group = group, TemperatureClass = t } });
}
