using TagService.Domain.Registers;

namespace TagService.Domain.Tests.Registers;

/// <summary>Column names are common practice of registers in their languages; rows are invented.</summary>
public sealed class MappingSuggestionTests
{
    private static readonly DateOnly Today = new(2026, 1, 1);

    [Theory]
    [InlineData("Inventarnummer", "/assetId")]
    [InlineData("asset_id", "/assetId")]
    [InlineData("/assetNumber", "/assetId")]
    [InlineData("Numéro d'inventaire", "/assetId")]
    public void From_NameOfTheKeyColumn_PointsToTheKey(string column, string target) =>
        Assert.Equal(target, Suggest(column, "A-1", "A-2", "A-3").Row?.Target);

    [Theory]
    [InlineData("Wandstärke [mm]", "/surface/thicknessMm", "mm")]
    [InlineData("wallThickness_in", "/surface/thicknessMm", "in")]
    [InlineData("Max. temperature (°F)", "/environment/temperatureMaxC", "degF")]
    [InlineData("Épaisseur (cm)", "/surface/thicknessMm", "cm")]
    public void From_UnitInTheName_IsSuggestedToo(string column, string target, string unit)
    {
        var suggestion = Suggest(column, "3", "4", "2.5");

        Assert.Equal((target, unit), (suggestion.Row?.Target, suggestion.Row?.Unit));
    }

    // EPC of GS1 EPC Tag Data Standard 2.0, section E.3 (SGTIN-96 example 3074257BF7194E4000001A85, from memory).
    [Fact]
    public void From_ValuesLikeIdentities_PointToTheTagWhateverTheName() =>
        Assert.Equal("/tag", Suggest("Feld 17", "3074257BF7194E4000001A85", "urn:epc:id:giai:0614141.12345400", "https://id.gs1.org/8004/061414112345400").Row?.Target);

    [Fact]
    public void From_NamesOfKnownPlaces_PointToTheLocation()
    {
        var suggestion = MappingSuggestion.From([RegisterRow.OfTexts(("F1", "works north")), RegisterRow.OfTexts(("F1", "Laboratory"))], ["Works North", "Laboratory"], Today)[0];

        Assert.Equal("/location", suggestion.Row?.Target);
    }

    [Fact]
    public void From_DatesWithSlashes_FindTheOrderFromTheWholeColumn()
    {
        var suggestion = Suggest("Disposal date", "03/04/2025", "25/12/2024", "01/02/2025");

        Assert.Equal(("/retired", "date", DateOrder.DayMonthYear), (suggestion.Row!.Target, suggestion.Row.Unit, suggestion.Row.DateOrder));
    }

    [Fact]
    public void From_DecimalComma_IsSeen() =>
        Assert.Equal(DecimalMark.Comma, Suggest("Wandstärke", "2,5 mm", "3 mm", "0,75 mm").Row!.DecimalMark);

    [Fact]
    public void From_ValuesThatDoNotFit_LowerTheConfidenceAndAreShown()
    {
        var good = Suggest("Wall thickness mm", "2", "3", "4");
        var bad = Suggest("Wall thickness mm", "thin", "3", "thick");

        Assert.True(bad.Confidence < good.Confidence);
        Assert.Equal(["thin", "thick"], bad.NotUnderstood);
    }

    [Fact]
    public void From_TwoColumnsForOneField_NamesTheBetterOne()
    {
        var rows = new[] { RegisterRow.OfTexts(("Material", "steel"), ("Werkstoff alt", "xyz")) };
        var suggestions = MappingSuggestion.From(rows, [], Today);

        Assert.Null(suggestions[0].BetterSource);
        Assert.Equal("Material", suggestions[1].BetterSource);
        Assert.True(suggestions[1].Confidence < suggestions[0].Confidence);
    }

    [Fact]
    public void From_NothingPointsAnywhere_SaysSo()
    {
        var suggestion = Suggest("Buchungskreis", "0815", "0815", "4711");

        Assert.Null(suggestion.Row);
        Assert.NotEmpty(suggestion.Reasons);
    }

    [Fact]
    public void Names_EveryNameOfTheTable_LeadsToItsField()
    {
        foreach (var row in MappingName.Table.All)
        {
            Assert.NotNull(MappingTargets.Find(row.Target));
            foreach (var name in row.Names)
                Assert.Contains(MappingName.Find(name), f => f.Target.Pointer == row.Target);
        }
    }

    private static MappingSuggestion Suggest(string column, params string[] values) =>
        MappingSuggestion.From([.. values.Select(v => RegisterRow.OfTexts((column, v)))], [], Today)[0];
}
