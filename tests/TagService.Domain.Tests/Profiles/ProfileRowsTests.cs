using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Profiles;

/// <summary>Properties that every profile, setting and default row must have.</summary>
public sealed class ProfileRowsTests
{
    public static TheoryData<string> Ids => [.. AssetProfiles.Table.All.Select(p => p.Id)];

    [Theory]
    [MemberData(nameof(Ids))]
    public void Profile_Typical_GivesWhatEveryProfileMustGive(string id)
    {
        var typical = AssetProfiles.Table[id].Typical;
        Assert.NotNull(Materials.Table.Find(typical.Surface?.Material));
        Assert.True(typical.Surface!.Coating is null || Coatings.Table.Find(typical.Surface.Coating) is not null);
        Assert.True(typical.Surface.Backing is null || Materials.Table.Find(typical.Surface.Backing) is not null);
        Assert.True(typical.Contents is null || Materials.Table.Find(typical.Contents) is not null);
        Assert.InRange(typical.Mounting!.LengthMm!.Value, typical.Mounting.WidthMm!.Value, 10_000);
        Assert.InRange(typical.Mounting.MaxHeightMm!.Value, 0.1, 100);
        Assert.NotNull(typical.Mounting.AllowDrilling);
        Assert.NotNull(typical.Environment!.Setting);
        Assert.InRange(typical.Service!.LifeYears!.Value, 0.1, 100);
        Assert.InRange(typical.Reading!.RequiredRangeM!.Value, 0.01, 20);
        Assert.True(typical.Reading.Site is null || RadioTables.Sites.Find(typical.Reading.Site) is not null);
        Assert.All(typical.Environment.Chemicals ?? [], c => Assert.NotNull(Chemicals.Families.Find(c)));
        Assert.All(typical.Environment.IpRequired ?? [], c => Assert.True(IpCode.TryParse(c, out _)));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Profile_Row_NamesLanguagesCautionsAndSource(string id)
    {
        var profile = AssetProfiles.Table[id];
        // The unknown asset is what is left when no word was recognised: it has none of its own.
        if (profile != AssetProfiles.Unknown)
            Assert.All(new[] { "en", "de", "fr", "es" }, language => Assert.NotEmpty(profile.Words[language]));
        Assert.All(profile.Words.Values.SelectMany(w => w), word => Assert.Equal(word.ToLowerInvariant(), word));
        Assert.All(profile.Cautions, c => Assert.NotNull(Cautions.Table.Find(c)));
        Assert.False(string.IsNullOrWhiteSpace(profile.Source));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Profile_Alternatives_SetTheirFieldAndLeaveAShareToTheTypical(string id)
    {
        var profile = AssetProfiles.Table[id];
        foreach (var field in profile.Alternatives.GroupBy(a => a.Field))
        {
            Assert.InRange(field.Sum(a => a.Share), 0.01, 0.99);
            foreach (var alternative in field)
            {
                Assert.InRange(alternative.Share, 0.01, 0.9);
                Assert.NotEqual("none", Text(field.Key, alternative.Values));
            }
        }

        var typical = ProfileResolution.Resolve(new() { Category = id }).Asset;
        foreach (var a in profile.Alternatives)
        {
            var record = new AssetRecord
            {
                Category = id, Surface = a.Values.Surface, Mounting = a.Values.Mounting, Environment = a.Values.Environment,
                Contents = a.Values.Contents, Reading = a.Values.Reading, Service = a.Values.Service,
            };
            var resolution = ProfileResolution.Resolve(record);
            Assert.Empty(resolution.Notices);
            Assert.DoesNotContain(resolution.Assumptions, x => x.Pointer == a.Field);
            Assert.Empty(RecordContradictions.Find(record));
            // What is inside a metal wall changes nothing.
            Assert.True(a.Field == "/contents" || typical != resolution.Asset, a.Field);
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Profile_Typical_ContradictsNothing(string id)
    {
        var t = AssetProfiles.Table[id].Typical;
        var record = new AssetRecord
        {
            Surface = t.Surface, Mounting = t.Mounting, Environment = t.Environment, Contents = t.Contents, Reading = t.Reading, Service = t.Service,
        };
        Assert.Empty(RecordContradictions.Find(record));
        Assert.Empty(ProfileResolution.Resolve(record).Notices);
    }

    [Fact]
    public void Profiles_Registry_HasTheNumberThatWasAskedFor()
    {
        Assert.InRange(AssetProfiles.Table.All.Count, 73, 200);
        Assert.InRange(AssetProfiles.Table.All.Count(p => p.Alternatives.Count > 0) / (double)AssetProfiles.Table.All.Count, 0.8, 1);
    }

    [Fact]
    public void Settings_Rows_AreCompleteAndInOrder()
    {
        Assert.Equal(Enum.GetValues<Setting>().Length, Settings.Table.All.Count);
        foreach (var row in Settings.Table.All)
        {
            var e = row.Environment;
            Assert.All(
                new object?[]
                {
                    e.TemperatureMinC, e.TemperatureMaxC, e.PeakTemperatureC, e.ApplicationTemperatureC, e.IpRequired, e.ImmersionM, e.PressureWash,
                    e.ImpactJ, e.Abrasion, e.Flexing, e.Chemicals, e.SterilisationCycles, e.LaundryCycles, e.TamperRisk, e.FoodContact,
                },
                Assert.NotNull);
            Assert.Null(e.Setting);
            Assert.Null(e.HazardousArea);
            Assert.True(e.TemperatureMinC < e.TemperatureMaxC && e.TemperatureMaxC <= e.PeakTemperatureC);
            Assert.InRange(row.SunShare, 0, 1);
            Assert.InRange(row.Severity, 1, 10);
            Assert.NotNull(RadioTables.Sites.Find(row.Site));
            Assert.Equal(row.Setting == Setting.Office, row.Severity == 1);
        }
    }

    // Facts of the trade (common practice): a site is rougher than an office, the open sees more sun, a freezer is colder.
    [Fact]
    public void Settings_Rows_OrderAsTheTradeKnowsThem()
    {
        SettingRow office = Settings.Of(Setting.Office), site = Settings.Of(Setting.RoughSite), outdoor = Settings.Of(Setting.Outdoor);
        Assert.True(site.Severity > outdoor.Severity && outdoor.Severity > office.Severity);
        Assert.True(site.Environment.ImpactJ > office.Environment.ImpactJ);
        Assert.True(outdoor.SunShare > Settings.Of(Setting.OutdoorSheltered).SunShare);
        Assert.Equal(Settings.Table.All.Min(r => r.Environment.TemperatureMinC), Settings.Of(Setting.ColdStore).Environment.TemperatureMinC);
        Assert.Contains("salt-fog", Settings.Of(Setting.Marine).Environment.Chemicals!);
        Assert.True(Settings.Of(Setting.Laundry).Environment.LaundryCycles > 0);
        Assert.True(Settings.Of(Setting.Buried).Environment.ImmersionM > 0);
    }

    private static string Text(string pointer, ProfileValues values) => FieldText.Of(pointer, values);
}
