using System.Text.Json;
using CsCheck;
using TagService.Domain.Recommendations;
using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

/// <summary>Rows are invented.</summary>
public sealed class RowMapperTests
{
    private static readonly DateOnly Today = new(2026, 1, 1);

    // The inch is 25.4 mm exactly, 212 degF are 100 degC (NIST SP 811, 2008, appendix B.8, from memory).
    [Theory]
    [InlineData("1/4", null)]
    [InlineData("0.25 in", 6.35)]
    [InlineData("0.25\"", 6.35)]
    [InlineData("0,25 Zoll", 6.35)]
    [InlineData("6.35", 6.35)]
    [InlineData("0.635 cm", 6.35)]
    [InlineData("6,35 mm", 6.35)]
    [InlineData("6.35 kg", null)]
    [InlineData("20 km", null)]
    public void Map_LengthAsWritten_ComesToMillimetres(string text, double? expectedMm)
    {
        var mapped = Map([new() { Target = "/surface/thicknessMm", Source = "T" }], ("T", text));

        Assert.Equal(expectedMm, (mapped as MappedAsset)?.ApplyTo(null).Surface?.ThicknessMm);
        Assert.Equal(expectedMm is null, mapped is RowRefusal);
    }

    [Fact]
    public void Map_UnitOfTheMapping_CountsUnlessTheCellSaysOtherwise()
    {
        MappingRow[] rows = [new() { Target = "/environment/temperatureMaxC", Source = "T", Unit = "degF" }];

        Assert.Equal(100, Record(Map(rows, ("T", "212"))).Environment!.TemperatureMaxC);
        Assert.Equal(100, Record(Map(rows, ("T", "100 °C"))).Environment!.TemperatureMaxC);
    }

    [Fact]
    public void Map_SeveralThingsWrong_RefusesWithAllOfThemAtOnce()
    {
        var refusal = Assert.IsType<RowRefusal>(Map(
            [
                new() { Target = "/surface/thicknessMm", Source = "T" },
                new() { Target = "/environment/abrasion", Source = "A" },
                new() { Target = "/mounting/allowDrilling", Source = "D" },
                new() { Target = "/service/lifeYears", Source = "L" },
            ],
            ("T", "1.234"), ("A", "stark"), ("D", "vielleicht"), ("L", "1000")));

        Assert.Equal("P-1", refusal.AssetId);
        Assert.Equal(
            ["/environment/abrasion", "/mounting/allowDrilling", "/service/lifeYears", "/surface/thicknessMm"],
            refusal.Problems.Select(p => p.Field).Order(StringComparer.Ordinal));
        Assert.All(refusal.Problems, p => Assert.NotEmpty(p.Accepted));
        Assert.Contains("none, low, medium, high", refusal.Problems.Single(p => p.Field == "/environment/abrasion").Accepted, StringComparison.Ordinal);
    }

    [Fact]
    public void Map_LeftOutWhenNotUnderstood_KeepsTheOriginalAndTheStoredValue()
    {
        var mapped = Assert.IsType<MappedAsset>(Map(
            [new() { Target = "/environment/abrasion", Source = "A", WhenNotUnderstood = WhenNotUnderstood.LeaveOut }], ("A", "stark")));
        var stored = new AssetRecord { Environment = new() { Abrasion = Level.Low } };

        Assert.Equal(Level.Low, mapped.ApplyTo(stored).Environment!.Abrasion);
        Assert.Equal("stark", mapped.Attributes["A"]);
        Assert.Equal(RowProblemKind.LeftOut, Assert.Single(mapped.Problems).Kind);
    }

    [Theory]
    [InlineData(false, "water")]
    [InlineData(true, null)]
    public void Map_EmptyCell_ClearsOnlyWhereTheMappingSaysSo(bool emptyClears, string? expected)
    {
        MappingRow[] rows = [new() { Target = "/contents", Source = "C", EmptyClears = emptyClears }];
        var stored = new AssetRecord { Contents = "water" };

        Assert.Equal(expected, Assert.IsType<MappedAsset>(Map(rows, ("C", "n/a"))).ApplyTo(stored).Contents);
        // A column that is not there at all never clears.
        Assert.Equal("water", Assert.IsType<MappedAsset>(Map(rows)).ApplyTo(stored).Contents);
    }

    [Fact]
    public void Map_DateInColumnOfRetirement_IsComparedWithTheDay()
    {
        MappingRow[] rows = [new() { Target = "/retired", Source = "R", Unit = "date" }, new() { Target = "/service/lifeYears", Source = "E", Unit = "date" }];

        Assert.True(Assert.IsType<MappedAsset>(Map(rows, ("R", "31.12.2025"))).Retired);
        Assert.False(Assert.IsType<MappedAsset>(Map(rows, ("R", "2026-06-30"))).Retired);
        Assert.Null(Assert.IsType<MappedAsset>(Map(rows, ("R", ""))).Retired);
        // 1461 days are four Julian years of 365.25 days (IAU).
        Assert.Equal(4, Record(Map(rows, ("E", "2030-01-01"))).Service!.LifeYears);
    }

    [Fact]
    public void Map_ZoneNotUnderstood_RefusesAlways()
    {
        MappingRow[] rows = [new() { Target = "/environment/hazardousArea/zone", Source = "Z" }, new() { Target = "/environment/hazardousArea/group", Source = "G" }];

        Assert.Equal("1", Record(Map(rows, ("Z", "Zone 1"), ("G", "IIC"))).Environment!.HazardousArea!.Zone);
        Assert.IsType<RowRefusal>(Map(rows, ("Z", "1 or 2"), ("G", "IIC")));
        Assert.IsType<RowRefusal>(Map(rows, ("Z", ""), ("G", "IIC")));
    }

    [Fact]
    public void Map_AmountWithCurrency_BringsItAndNeverConverts()
    {
        MappingRow[] rows = [new() { Target = "/service/labourRatePerHour", Source = "R" }];

        var service = Record(Map(rows, ("R", "€ 45,50"))).Service!;
        Assert.Equal((45.5, "EUR"), (service.LabourRatePerHour, service.Currency));
        Assert.IsType<RowRefusal>(Map(rows, ("R", "$ 45")));
        Assert.IsType<RowRefusal>(Map([rows[0] with { Currency = "GBP" }], ("R", "45 EUR")));
        Assert.IsType<RowRefusal>(Map([rows[0], new() { Target = "/service/currency", Source = "C" }], ("R", "45 EUR"), ("C", "PLN")));
    }

    // Words for yes and no: common vocabulary of the languages.
    [Theory]
    [InlineData("ja", true)]
    [InlineData("Sí", true)]
    [InlineData("TAK", true)]
    [InlineData("oui", true)]
    [InlineData("✓", true)]
    [InlineData("1", true)]
    [InlineData("nein", false)]
    [InlineData("não", false)]
    [InlineData("nie", false)]
    [InlineData("0", false)]
    public void Map_YesNoWords_AreUnderstood(string text, bool expected) =>
        Assert.Equal(expected, Record(Map([new() { Target = "/mounting/allowDrilling", Source = "D" }], ("D", text))).Mounting!.AllowDrilling);

    [Fact]
    public void Map_WordNoTableKnows_IsTakenOverAndCounted()
    {
        var tally = new NotUnderstoodTally();
        for (var i = 0; i < 3; i++)
            tally.Add(Map([new() { Target = "/surface/material", Source = "M" }], ("M", "Qwxzt")));
        tally.Add(Map([new() { Target = "/surface/material", Source = "M" }], ("M", "Edelstahl")));

        var (problem, count) = Assert.Single(tally.Listed);
        Assert.Equal((RowProblemKind.NotRecognised, "Qwxzt", 3L), (problem.Kind, problem.Value, count));
        Assert.Equal((4L, 0L), (tally.Rows, tally.Refused));
    }

    [Fact]
    public void Map_ColumnsThatFeedNothing_BecomeAttributesWithinLimits()
    {
        var cells = Enumerable.Range(0, 300).Select(i => ($"c{i}", (string?)new string('x', i == 0 ? 5000 : 3))).ToArray();
        var mapped = Assert.IsType<MappedAsset>(Map([], cells));

        Assert.Equal(AttributeLimits.Most, mapped.Attributes.Count);
        Assert.Equal(AttributeLimits.LongestValue, mapped.Attributes["c0"]!.Length);
        Assert.Equal(101, mapped.Problems.Count(p => p.Kind == RowProblemKind.Cut));
    }

    [Fact]
    public void Map_NotKept_IsNowhere()
    {
        var mapper = Assert.IsType<MappingCompilation.Usable>(new RegisterMapping { Rows = [new() { Target = "/assetId", Source = "No" }], NotKept = ["custodian"] }.Compile()).Mapper;

        var mapped = Assert.IsType<MappedAsset>(mapper.Map(RegisterRow.OfTexts(("No", "P-1"), ("Custodian", "somebody"), ("Other", "x")), Today));

        Assert.Equal(["Other"], mapped.Attributes.Keys);
    }

    [Fact]
    public void ApplyTo_SameRowTwice_ChangesNothingTheSecondTime() =>
        Gen.Select(Gen.String[Gen.Char["0123456789,. mincft°CF"], 0, 12], Gen.String[Gen.Char.AlphaNumeric, 0, 8], Gen.Bool).Sample((number, word, clears) =>
        {
            MappingRow[] rows =
            [
                new() { Target = "/surface/thicknessMm", Source = "T", WhenNotUnderstood = WhenNotUnderstood.LeaveOut, EmptyClears = clears },
                new() { Target = "/category", Source = "C", EmptyClears = clears },
                new() { Target = "/environment/chemicals", Source = "H", EmptyClears = clears },
            ];
            var mapped = Assert.IsType<MappedAsset>(Map(rows, ("T", number), ("C", word), ("H", word), ("extra", word)));
            var once = mapped.ApplyTo(new AssetRecord { Category = "before", Surface = new() { Coating = "paint" } });

            Assert.Empty(mapped.ChangesTo(once));
            Assert.Equal(JsonSerializer.Serialize(once), JsonSerializer.Serialize(mapped.ApplyTo(once)));
            Assert.Equal("paint", once.Surface?.Coating);
        });

    [Fact]
    public void Map_AnyTextForAnyTarget_IsAnAssetWithinRangesOrARefusalWithReasons() =>
        Gen.Select(Gen.Int[0, MappingTargets.All.Count - 1].Select(i => MappingTargets.All[i]), Gen.OneOf(Gen.String[0, 30], Gen.String[Gen.Char["0123456789.,-€%'\"ZoneIBCT "], 0, 12])).Sample((target, text) =>
        {
            var rows = target == MappingTargets.AssetId ? [] : new[] { new MappingRow { Target = target.Pointer, Source = "V" } };
            if (HazardousAreaTargets.IsDetail(target))
                rows = [.. rows, new() { Target = "/environment/hazardousArea/zone", Default = "1" }];
            var mapped = Map(rows, ("V", text));
            if (mapped is RowRefusal refusal)
            {
                Assert.Contains(refusal.Problems, p => p.Kind == RowProblemKind.Refuses && p.Detail.Length > 0 && p.Accepted.Length > 0);
                return;
            }

            var record = Record(mapped);
            if (target.Kind is TargetKind.Number or TargetKind.Money && target.Get!(record) is double number)
                Assert.InRange(number, target.Least, target.Greatest);
        });

    private static AssetRecord Record(RowMapping mapped) => Assert.IsType<MappedAsset>(mapped).ApplyTo(null);

    private static RowMapping Map(IReadOnlyList<MappingRow> rows, params IReadOnlyList<(string, string?)> cells)
    {
        var mapping = new RegisterMapping { Rows = [new() { Target = "/assetId", Source = "No" }, .. rows] };
        return Assert.IsType<MappingCompilation.Usable>(mapping.Compile()).Mapper.Map(RegisterRow.OfTexts([("No", "P-1"), .. cells]), Today);
    }
}
