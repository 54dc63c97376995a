using System.ComponentModel.DataAnnotations;
using System.Text.RegularExpressions;
using TagService.Demo;
using TagService.Storage;

namespace TagService.Service.Tests.Hosting;

/// <summary>The invented fleet. What it must be comes from the demo scenario: sites, kinds of assets, about 2,400 of them.</summary>
public sealed partial class DemoFleetTests
{
    private static readonly IReadOnlyList<TagService.Storage.Bulk.AssetToLoad> Fleet = DemoFleet.Generate();

    [Fact]
    public void Generate_SameSeed_GivesTheSameFleet() => Assert.Equal(Text(DemoFleet.Generate(7)), Text(DemoFleet.Generate(7)));

    [Fact]
    public void Generate_OtherSeed_GivesOtherRecordsOfTheSameAssets()
    {
        var other = DemoFleet.Generate(DemoFleet.DefaultSeed + 1);
        Assert.Equal(Fleet.Select(a => a.Record.AssetId), other.Select(a => a.Record.AssetId));
        Assert.NotEqual(Text(Fleet), Text(other));
    }

    [Fact]
    public void Sites_AreThoseOfTheScenario()
    {
        var kinds = DemoFleet.Sites.CountBy(s => s.Kind).ToDictionary();
        Assert.Equal(40, kinds["pumping-station"]);
        Assert.Equal(2, kinds["water-treatment"] + kinds["wastewater-treatment"]);
        Assert.All((string[])["laboratory", "workshop", "fleet-yard", "office"], k => Assert.Equal(1, kinds[k]));
        Assert.Equal(46, DemoFleet.Sites.Count);
        Assert.Distinct(DemoFleet.Sites.Select(s => s.Name));
    }

    [Fact]
    public void Generate_Fleet_IsAbout2400AtAllSitesWithUniqueIds()
    {
        Assert.InRange(Fleet.Count, 2300, 2500);
        Assert.Distinct(Fleet.Select(a => a.Record.AssetId));
        var bySite = Fleet.CountBy(a => a.LocationName!.Split(" / ")[0]).ToDictionary();
        Assert.Equal(DemoFleet.Sites.Select(s => s.Name).Order(StringComparer.Ordinal), bySite.Keys.Order(StringComparer.Ordinal));
        // Counted by hand in the table: 8 kinds have a share at pumping stations, summing to 14.
        Assert.All(DemoFleet.Sites.Where(s => s.Kind == "pumping-station"), s => Assert.Equal(14, bySite[s.Name]));
    }

    [Theory]
    [InlineData("PMC")]
    [InlineData("VAL")]
    [InlineData("GDT")]
    [InlineData("HTL")]
    [InlineData("LAD")]
    [InlineData("GEN")]
    [InlineData("CYC")]
    [InlineData("CYG")]
    [InlineData("FLM")]
    [InlineData("LBI")]
    [InlineData("LAP")]
    [InlineData("MON")]
    [InlineData("CRT")]
    public void Generate_KindOfTheScenario_HasAssets(string code) =>
        Assert.True(Fleet.Count(a => a.Record.AssetId!.StartsWith($"EW-{code}-", StringComparison.Ordinal)) >= 20);

    [Fact]
    public void Generate_Records_AreThinOrdinaryAndWellKept()
    {
        double n = Fleet.Count;
        Assert.InRange(Fleet.Count(a => a.Record.Description is null) / n, 0.2, 0.4);
        Assert.InRange(Fleet.Count(a => a.Record.Attributes.ContainsKey("model")) / n, 0.6, 0.8);
        Assert.InRange(Fleet.Count(a => a.Record.Surface is not null) / n, 0.15, 0.35);
        var usual = DemoFleet.Kinds.ToDictionary(k => k.Code, k => k.Categories[0]);
        Assert.InRange(Fleet.Count(a => a.Record.Category != usual[a.Record.AssetId!.Split('-')[1]]) / n, 0.15, 0.4);
    }

    [Fact]
    public void Generate_EveryRecordAndRow_IsMarkedInvented()
    {
        Assert.All(Fleet, a => Assert.Equal("invented demo asset", a.Record.Attributes["remark"]));
        Assert.All(DemoFleet.Kinds, k => Assert.Equal("invented", k.Source));
        Assert.All(DemoFleet.Sites, s => Assert.Equal("invented", s.Source));
    }

    /// <summary>What the interface would refuse must not come in by the back door: the ranges stand on the record itself.</summary>
    [Fact]
    public void Generate_EveryRecord_IsWithinTheRangesOfTheInterface() => Assert.All(Fleet, a =>
    {
        object?[] parts = [a.Record.Surface, a.Record.Mounting, a.Record.Environment, a.Record.Environment?.HazardousArea, a.Record.Reading, a.Record.Service];
        Assert.All(parts.OfType<object>(), part => Validator.ValidateObject(part, new ValidationContext(part), validateAllProperties: true));
        Assert.Matches(AssetNumber(), a.Record.AssetId);
    });

    /// <summary>First outputs for seed 1234567 as listed for SplitMix64 in public test vectors (Rosetta Code, "Pseudo-random numbers/Splitmix64"; from memory).</summary>
    [Fact]
    public void SplitMix_PublishedSeed_GivesThePublishedNumbers()
    {
        var random = new SplitMix(1234567);
        Assert.Equal(
            [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821],
            Enumerable.Range(0, 5).Select(_ => random.Next()));
    }

    private static string Text(IEnumerable<TagService.Storage.Bulk.AssetToLoad> fleet) =>
        string.Join('\n', fleet.Select(a => $"{AssetRecordJson.Write(a.Record)} {a.LocationName}"));

    [GeneratedRegex("^EW-[A-Z]{3}-[0-9]{5}$")]
    private static partial Regex AssetNumber();
}
