using TagService.Domain.Suitability;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.TagClasses;

/// <summary>Invariants of the built-in catalogue, and limits against published process temperatures.</summary>
public sealed class TagClassCatalogueTests
{
    private static IReadOnlyList<TagClass> All => TagClassCatalogue.BuiltIn.All;

    [Fact]
    public void BuiltIn_Rows_AreCompleteAndSane()
    {
        Assert.True(All.Count >= 36);
        Assert.All(All, t =>
        {
            Assert.Matches("^[a-z]+(-[a-z]+)*$", t.Id);
            Assert.NotEmpty(t.Description);
            Assert.Contains("planning value", t.Source, StringComparison.Ordinal);
            Assert.Null(t.Certificate);
            Assert.True(t.Size.LengthMm >= t.Size.WidthMm && t.Size.HeightMm > 0, t.Id);
            Assert.NotEmpty(t.AttachmentMethods);
            Assert.All(t.AttachmentMethods, m => Assert.NotNull(AttachmentMethods.Table.Find(m)));
            Assert.All(t.Cautions, c => Assert.NotNull(Cautions.Table.Find(c)));
            Assert.NotNull(Chemicals.Compatibility.Find(t.Limits.FaceMaterial));
            Assert.All(t.Limits.IpCodes, c => Assert.True(IpCode.TryParse(c, out _), c));
            Assert.True(t.Limits.TemperatureMinC < t.Limits.TemperatureMaxC && t.Limits.TemperatureMaxC < t.Limits.PeakTemperatureC, t.Id);
            Assert.True(0 < t.Price.Low && t.Price.Low <= t.Price.Typical && t.Price.Typical <= t.Price.High, t.Id);
            Assert.InRange(t.ApplicationMinutes, 0.1, 10);
            Assert.InRange(t.Life.Shape, 0.8, 5);
            Assert.InRange(t.Life.ScaleYears, 1, 30);
            Assert.InRange(t.Life.EquivalentFailures, 1, 10);
        });
    }

    [Fact]
    public void BuiltIn_OneCurrency_AndAllPricesAtOneQuantity()
    {
        Assert.Single(All.Select(t => t.Price.Currency).Distinct());
        Assert.Single(All.Select(t => t.Price.AtQuantity).Distinct());
    }

    [Fact]
    public void BuiltIn_UhfAntennas_AreWithinWhatChipsAndShapesAllow() => Assert.All(
        All.Where(t => t.Technology == TagTechnology.Uhf),
        t =>
        {
            // Passive read thresholds of 2011 to 2018 chips: about -18 to -22 dBm (from memory).
            Assert.InRange(t.Antenna.ThresholdDbm, t.Antenna.BatteryAssisted ? -40 : -22, t.Antenna.BatteryAssisted ? -28 : -17);
            Assert.InRange(t.Antenna.BandwidthMhz, 4, 120);
            Assert.True(t.Antenna.StandoffMm <= t.Size.HeightMm, t.Id);
            Assert.Equal(t.Antenna.Kind == AntennaKind.GroundPlane, t.Antenna.ReferencePlateMm > 0);
        });

    [Fact]
    public void BuiltIn_HfAntennas_UseTheMinimumFieldsOfTheirStandards() => Assert.All(
        All.Where(t => t.Technology != TagTechnology.Uhf),
        t =>
        {
            // Minimum operating field: 0.15 A/m in ISO/IEC 15693, 1.5 A/m in ISO/IEC 14443 (from memory).
            Assert.Equal(t.Technology == TagTechnology.Hf15693 ? 0.15 : 1.5, t.Antenna.ThresholdAPerM);
            // A coil cannot enclose more than the tag's own outline (a ferrite core gathers more: glass capsules).
            if (t.Family != "glass-capsule-hf")
                Assert.InRange(t.Antenna.CoilAreaMm2, 1, t.Size.LengthMm * t.Size.WidthMm);
        });

    [Fact]
    public void BuiltIn_OneFamily_LargerHasNoWeakerAntenna()
    {
        // Common practice: of one construction the larger reads no shorter.
        foreach (var family in All.GroupBy(t => t.Family))
        {
            var bySize = family.OrderBy(t => t.Size.LengthMm * t.Size.WidthMm).ToArray();
            foreach (var (small, large) in bySize.Zip(bySize.Skip(1)))
            {
                Assert.Equal(small.Antenna.Kind, large.Antenna.Kind);
                Assert.True(small.Antenna.ReferenceGainDbi <= large.Antenna.ReferenceGainDbi, large.Id);
                Assert.True(small.Antenna.ThresholdDbm >= large.Antenna.ThresholdDbm, large.Id);
                Assert.True(small.Antenna.BandwidthMhz <= large.Antenna.BandwidthMhz, large.Id);
                Assert.True(small.Antenna.CoilAreaMm2 <= large.Antenna.CoilAreaMm2, large.Id);
            }
        }
    }

    [Fact]
    public void BuiltIn_SterilisableClasses_BearTheSteamOfTheStandards() =>
        // Porous-load steam cycle 134 °C (EN 285, from memory).
        Assert.All(All.Where(t => t.Limits.SterilisationCycles > 0), t => Assert.True(t.Limits.PeakTemperatureC >= 134, t.Id));

    [Fact]
    public void BuiltIn_HotJetClasses_BearTheWaterOfTheStandard() =>
        // IEC 60529 level 9: water of 80 °C (read in a secondary table).
        Assert.All(
            All.Where(t => t.Limits.PressureWash || t.Limits.IpCodes.Contains("IP69")),
            t => Assert.True(t.Limits.PeakTemperatureC >= 80 && t.Limits.TemperatureMaxC >= 60, t.Id));

    [Fact]
    public void BuiltIn_LaundryClasses_BearThermalDisinfectionAndIroning() =>
        // Thermal disinfection at 71 °C or above, flatwork ironing up to about 180 °C on linen (common practice).
        Assert.All(
            All.Where(t => t.AttachmentMethods.Contains("sewn")),
            t => Assert.True(t.Limits.LaundryCycles >= 100 && t.Limits.TemperatureMaxC >= 90 && t.Limits.PeakTemperatureC >= 180, t.Id));

    [Fact]
    public void BuiltIn_Constructions_CoverTheTrade()
    {
        string[] families =
        [
            "paper-label", "polymer-label", "tamper-evident-label", "foam-on-metal-label", "slim-metal-mount-label",
            "hard-metal-mount", "ceramic", "embeddable-tool-tag", "screw-mount-hard-tag", "rivet-mount-tag", "strap-mount-tag",
            "tie-mount-tag", "cable-flag-label", "high-temperature-hard-tag", "autoclavable-instrument-tag",
            "laundry-textile-tag", "pressure-wash-outdoor-tag", "long-range-outdoor-tag", "rubber-embedded-tag",
            "glass-capsule-hf", "animal-ear-tag", "wood-nail-tag", "windscreen-label", "hf-disc", "hf-on-metal-disc",
            "nfc-label", "battery-assisted-tag",
        ];
        Assert.All(families, f => Assert.Contains(All, t => t.Family == f));
    }

    [Fact]
    public void Version_AnyValueChanged_Changes()
    {
        Assert.Matches("^[0-9a-f]{12}$", TagClassCatalogue.Version);
        var dearer = All.Select((t, i) => i == 7 ? t with { Price = t.Price with { Typical = t.Price.Typical + 0.01 } } : t);
        Assert.NotEqual(TagClassCatalogue.Version, TagClassCatalogue.VersionOf(dearer));
        Assert.Equal(TagClassCatalogue.Version, TagClassCatalogue.VersionOf(All.Reverse()));
    }
}
