using TagService.Domain.Profiles;
using TagService.Domain.Recommendations;

namespace TagService.Domain.Tests.Profiles;

/// <summary>Precedence and consistency of what is filled in. Records are invented.</summary>
public sealed class ProfileResolutionTests
{
    private static AssumptionBasis? Basis(Resolution r, string pointer) => r.Assumptions.SingleOrDefault(a => a.Pointer == pointer)?.Basis;

    [Fact]
    public void Resolve_EmptyRecord_AssumesEverythingFromTheBroadDefault()
    {
        var r = ProfileResolution.Resolve(new());
        Assert.Same(AssetProfiles.Unknown, r.Match.Profile);
        Assert.Equal(ResolvedFields.Count, r.Assumptions.Count);
        Assert.Empty(r.Notices);
    }

    [Fact]
    public void Resolve_Precedence_IsRecordProfileSettingDefault()
    {
        var r = ProfileResolution.Resolve(new() { Category = "pump", Mounting = new() { MaxHeightMm = 3 } });
        Assert.Equal(3, r.Asset.MaxHeightMm);
        Assert.Null(Basis(r, "/mounting/maxHeightMm"));
        Assert.Equal("cast-iron", r.Asset.Material.Id);
        Assert.Equal(AssumptionBasis.Profile, Basis(r, "/surface/material"));
        Assert.Equal(Settings.Of(Setting.Plant).Environment.ImpactJ, r.Asset.ImpactJ);
        Assert.Equal(AssumptionBasis.Setting, Basis(r, "/environment/impactJ"));
        Assert.Equal(0.9, r.Asset.RequiredProbability);
        Assert.Equal(AssumptionBasis.Default, Basis(r, "/reading/requiredProbability"));
        Assert.Equal(AssumptionBasis.Derived, Basis(r, "/environment/uvYears"));
    }

    [Fact]
    public void Resolve_OtherSetting_KeepsTheHarsherOfProfileAndSetting()
    {
        // A hand tool's 10 J go with it into the office; the laptop meets the plant's 5 J.
        var tool = ProfileResolution.Resolve(new() { Category = "hand-tool", Environment = new() { Setting = Setting.Office } });
        Assert.Equal(AssetProfiles.Table["hand-tool"].Typical.Environment!.ImpactJ, tool.Asset.ImpactJ);
        Assert.Equal(AssumptionBasis.Profile, Basis(tool, "/environment/impactJ"));
        var laptop = ProfileResolution.Resolve(new() { Category = "laptop", Environment = new() { Setting = Setting.Plant } });
        Assert.Equal(Settings.Of(Setting.Plant).Environment.ImpactJ, laptop.Asset.ImpactJ);
        Assert.Equal(AssumptionBasis.Setting, Basis(laptop, "/environment/impactJ"));
        Assert.Contains("oil", laptop.Asset.Chemicals);
        Assert.Equal("plant", laptop.Asset.Reading.Site.Id);
    }

    // Rougher surroundings never ask for less (common practice).
    [Fact]
    public void Resolve_EveryProfileInEverySetting_IsAtLeastAsHarshAsTheSetting()
    {
        foreach (var profile in AssetProfiles.Table.All)
        {
            foreach (var row in Settings.Table.All.Where(s => s.Setting != profile.Typical.Environment!.Setting))
            {
                var a = ProfileResolution.Resolve(new() { Category = profile.Id, Environment = new() { Setting = row.Setting } }).Asset;
                var e = row.Environment;
                Assert.True(a.TemperatureMinC <= e.TemperatureMinC && a.TemperatureMaxC >= e.TemperatureMaxC && a.PeakTemperatureC >= e.PeakTemperatureC);
                Assert.True(a.ImpactJ >= e.ImpactJ && a.Abrasion >= e.Abrasion && a.Flexing >= e.Flexing && a.TamperRisk >= e.TamperRisk);
                Assert.True(a.ImmersionM >= e.ImmersionM && a.LaundryCycles >= e.LaundryCycles && a.ApplicationTemperatureC <= e.ApplicationTemperatureC);
                Assert.All(e.Chemicals!, c => Assert.Contains(c, a.Chemicals));
                Assert.All(e.IpRequired!, c => Assert.Contains(c[2..], a.IpRequired));
                Assert.True(a.UvYears >= (row.SunShare * a.LifeYears) - 1e-9);
            }
        }
    }

    [Fact]
    public void Resolve_Sun_IsTheSettingsShareOfTheLife()
    {
        var a = ProfileResolution.Resolve(new() { Category = "sign", Service = new() { LifeYears = 20 } }).Asset;
        Assert.Equal(20 * Settings.Of(Setting.Outdoor).SunShare, a.UvYears, 12);
    }

    [Theory]
    [InlineData("Kanister", "PE-HD", "Natronlauge", "salt-water")]
    [InlineData("Tank", "GFK", "Wasser", "water")]
    [InlineData("Tank", "Stahl", "Wasser", "air")]
    [InlineData("Tank", "PE", "Diesel", "air")]
    [InlineData("Tank", "PE", "leer", "air")]
    public void Resolve_ConductingContents_LieBehindAWallThatLetsTheFieldThrough(string category, string material, string contents, string backing)
    {
        var r = ProfileResolution.Resolve(new() { Category = category, Surface = new() { Material = material }, Contents = contents });
        Assert.Equal(backing, r.Asset.Backing.Id);
        Assert.DoesNotContain(r.Assumptions, a => a.Pointer == "/contents");
    }

    [Theory]
    [InlineData("verzinkter Stahl", "steel", "galvanised")]
    [InlineData("painted steel", "steel", "paint")]
    [InlineData("alu eloxiert", "aluminium", "anodised")]
    [InlineData("steel", "steel", "paint")]
    [InlineData("stainless-steel", "stainless-steel", "bare")]
    [InlineData("Edelstahl", "stainless-steel", "bare")]
    public void Resolve_CoatingWithinTheMaterialsWords_IsFound(string words, string material, string coating)
    {
        var a = ProfileResolution.Resolve(new() { Category = "pump", Surface = new() { Material = words } }).Asset;
        Assert.Equal(material, a.Material.Id);
        Assert.Equal(coating, a.Coating.Id);
    }

    [Fact]
    public void Resolve_WordsNotUnderstood_AreNotedWithNearestNamesAndAssumed()
    {
        var r = ProfileResolution.Resolve(new()
        {
            Category = "pump",
            Contents = "???",
            Surface = new() { Material = "unobtainium", Coating = "blurb", Backing = "void!" },
            Environment = new() { IpRequired = ["IP66", "IP99"], Chemicals = ["Diesel", "phlogiston"] },
            Reading = new() { Region = "Atlantis", Site = "moon" },
        });
        Assert.Equal(
            ["/contents", "/environment/chemicals", "/environment/ipRequired", "/reading/region", "/reading/site", "/surface/backing", "/surface/coating", "/surface/material"],
            r.Notices.Select(n => n.Pointer).Order(StringComparer.Ordinal));
        Assert.All(r.Notices, n => Assert.Contains("\"", n.Text));
        Assert.Contains("unobtainium", r.Notices[0].Text);
        Assert.Equal(["66"], r.Asset.IpRequired);
        Assert.Equal(["fuel"], r.Asset.Chemicals);
        Assert.Equal(AssumptionBasis.Profile, Basis(r, "/surface/material"));
        Assert.Equal(AssumptionBasis.Default, Basis(r, "/reading/region"));
    }

    [Theory]
    [InlineData("DE", "germany")]
    [InlineData("fr", "eu")]
    [InlineData("us", "us")]
    [InlineData("JP", "japan")]
    public void Resolve_Region_AcceptsIdsAndCountryCodes(string text, string id) =>
        Assert.Equal(id, ProfileResolution.Resolve(new() { Reading = new() { Region = text } }).Asset.Reading.Region.Id);

    [Theory]
    [InlineData(120, null, null)]
    [InlineData(null, 70, null)]
    [InlineData(null, null, 30)]
    [InlineData(-50, null, null)]
    [InlineData(null, 5, null)]
    [InlineData(null, 200, 250)]
    public void Resolve_OneTemperatureGiven_KeepsTheOrder(int? min, int? max, int? peak)
    {
        foreach (var profile in AssetProfiles.Table.All)
        {
            var a = ProfileResolution.Resolve(new()
            {
                Category = profile.Id, Environment = new() { TemperatureMinC = min, TemperatureMaxC = max, PeakTemperatureC = peak },
            }).Asset;
            Assert.True(a.TemperatureMinC <= a.TemperatureMaxC && a.TemperatureMaxC <= a.PeakTemperatureC, profile.Id);
            Assert.Equal(min ?? a.TemperatureMinC, a.TemperatureMinC);
            Assert.Equal(max ?? a.TemperatureMaxC, a.TemperatureMaxC);
            Assert.Equal(peak ?? a.PeakTemperatureC, a.PeakTemperatureC);
        }
    }

    [Fact]
    public void Resolve_OneSideGiven_KeepsLengthTheLongerOne()
    {
        var shorter = ProfileResolution.Resolve(new() { Category = "desk-table", Mounting = new() { LengthMm = 20 } }).Asset;
        Assert.Equal((20, 20), (shorter.LengthMm, shorter.WidthMm));
        var wider = ProfileResolution.Resolve(new() { Category = "desk-table", Mounting = new() { WidthMm = 300 } }).Asset;
        Assert.Equal((300, 300), (wider.LengthMm, wider.WidthMm));
        var turned = ProfileResolution.Resolve(new() { Mounting = new() { LengthMm = 20, WidthMm = 70 } }).Asset;
        Assert.Equal((70, 20), (turned.LengthMm, turned.WidthMm));
    }

    // IEC 60529: hot high-pressure jets are level 9, continuous immersion level 8; neither follows from 5 or 6.
    [Fact]
    public void Resolve_WashingAndImmersionGiven_AskForTheirCodes()
    {
        var a = ProfileResolution.Resolve(new() { Category = "pump", Environment = new() { PressureWash = true, ImmersionM = 3 } }).Asset;
        Assert.Contains(a.IpRequired, c => c.EndsWith('9'));
        Assert.Contains(a.IpRequired, c => c.EndsWith('8'));
        Assert.Contains("65", a.IpRequired);
    }

    [Fact]
    public void Resolve_SameMatch_GivesTheSameAsset()
    {
        var record = new AssetRecord { Category = "Kreiselpumpe", Contents = "Wasser" };
        var once = ProfileResolution.Resolve(record);
        Assert.Equal(once.Asset, ProfileResolution.Resolve(record, once.Match).Asset);
    }
}
