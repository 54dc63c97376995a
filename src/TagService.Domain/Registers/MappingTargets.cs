using TagService.Domain.Identity.Schemes;
using TagService.Domain.Profiles;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Suitability;
using TagService.Domain.Surfaces;
using TagService.Domain.Words;

namespace TagService.Domain.Registers;

/// <summary>All fields that a register's values can go to.</summary>
public static class MappingTargets
{
    /// <summary>Start of the pointers that name an attribute of one's own choice, for example <c>/attributes/inventoryNote</c>.</summary>
    public const string AttributePrefix = "/attributes/";

    private static readonly TargetParts<SurfaceRecord> Surface = new("/surface", r => r.Surface, (r, p) => r with { Surface = p });

    private static readonly TargetParts<MountingRecord> Mounting = new("/mounting", r => r.Mounting, (r, p) => r with { Mounting = p });

    private static readonly TargetParts<EnvironmentRecord> Environment =
        new("/environment", r => r.Environment, (r, p) => r with { Environment = p });

    private static readonly TargetParts<ReadingRecord> Reading = new("/reading", r => r.Reading, (r, p) => r with { Reading = p });

    private static readonly TargetParts<ServiceRecord> Service = new("/service", r => r.Service, (r, p) => r with { Service = p });

    private static readonly TargetParts<IdentityRecord> Identity = new("/identity", r => r.Identity, (r, p) => r with { Identity = p });

    /// <summary>The key.</summary>
    public static MappingTarget AssetId { get; } = new()
    {
        Pointer = "/assetId", Kind = TargetKind.Text, Longest = 200, IsVital = true,
        Get = r => r.AssetId, Set = (r, v) => r with { AssetId = (string?)v },
    };

    /// <summary>Where the register says the asset is, in the register's words; not part of the asset record.</summary>
    public static MappingTarget Location { get; } = new() { Pointer = "/location", Kind = TargetKind.Text, Longest = 200 };

    /// <summary>The identity that the register has noted for the asset's tag, in any form; not part of the asset record.</summary>
    public static MappingTarget Tag { get; } = new() { Pointer = "/tag", Kind = TargetKind.Text, Longest = 200, IsVital = true };

    /// <summary>Has the asset left service? Not part of the asset record.</summary>
    public static MappingTarget Retired { get; } = new() { Pointer = "/retired", Kind = TargetKind.YesNo, IsVital = true, TakesDate = true };

    /// <summary>The explicit list.</summary>
    public static IReadOnlyList<MappingTarget> All { get; } =
    [
        AssetId, Location, Tag, Retired,
        new() { Pointer = "/category", Kind = TargetKind.Text, Longest = 500, Get = r => r.Category, Set = (r, v) => r with { Category = (string?)v } },
        new() { Pointer = "/description", Kind = TargetKind.Text, Longest = 4000, Get = r => r.Description, Set = (r, v) => r with { Description = (string?)v } },
        new()
        {
            Pointer = "/contents", Kind = TargetKind.Text, Longest = 500, Recognises = IsMaterial,
            Get = r => r.Contents, Set = (r, v) => r with { Contents = (string?)v },
        },
        Surface.Text("material", s => s.Material, (s, v) => s with { Material = v }, IsMaterial),
        Surface.Text("coating", s => s.Coating, (s, v) => s with { Coating = v }, t => Coatings.Find(t) is not null),
        Surface.Number("curvatureRadiusMm", "mm", s => s.CurvatureRadiusMm, (s, v) => s with { CurvatureRadiusMm = v }),
        Surface.Number("thicknessMm", "mm", s => s.ThicknessMm, (s, v) => s with { ThicknessMm = v }),
        Surface.Text("backing", s => s.Backing, (s, v) => s with { Backing = v }, IsMaterial),
        Mounting.Number("lengthMm", "mm", m => m.LengthMm, (m, v) => m with { LengthMm = v }),
        Mounting.Number("widthMm", "mm", m => m.WidthMm, (m, v) => m with { WidthMm = v }),
        Mounting.Number("maxHeightMm", "mm", m => m.MaxHeightMm, (m, v) => m with { MaxHeightMm = v }),
        Mounting.YesNo("allowDrilling", m => m.AllowDrilling, (m, v) => m with { AllowDrilling = v }),
        Environment.Choice<Setting>("setting", e => e.Setting, (e, v) => e with { Setting = v }),
        Environment.Number("temperatureMinC", "degC", e => e.TemperatureMinC, (e, v) => e with { TemperatureMinC = v }),
        Environment.Number("temperatureMaxC", "degC", e => e.TemperatureMaxC, (e, v) => e with { TemperatureMaxC = v }),
        Environment.Number("peakTemperatureC", "degC", e => e.PeakTemperatureC, (e, v) => e with { PeakTemperatureC = v }),
        Environment.Number("applicationTemperatureC", "degC", e => e.ApplicationTemperatureC, (e, v) => e with { ApplicationTemperatureC = v }),
        Environment.TextList("ipRequired", e => e.IpRequired, (e, v) => e with { IpRequired = v }, t => IpCode.TryParse(t, out _)),
        Environment.Number("immersionM", "m", e => e.ImmersionM, (e, v) => e with { ImmersionM = v }),
        Environment.YesNo("pressureWash", e => e.PressureWash, (e, v) => e with { PressureWash = v }),
        Environment.Number("impactJ", "J", e => e.ImpactJ, (e, v) => e with { ImpactJ = v }),
        Environment.Choice<Level>("abrasion", e => e.Abrasion, (e, v) => e with { Abrasion = v }),
        Environment.Choice<Level>("flexing", e => e.Flexing, (e, v) => e with { Flexing = v }),
        Environment.TextList("chemicals", e => e.Chemicals, (e, v) => e with { Chemicals = v }, t => Chemicals.Find(t) is not null),
        Environment.Number("uvYears", "years", e => e.UvYears, (e, v) => e with { UvYears = v }),
        Environment.WholeNumber("sterilisationCycles", e => e.SterilisationCycles, (e, v) => e with { SterilisationCycles = v }),
        Environment.WholeNumber("laundryCycles", e => e.LaundryCycles, (e, v) => e with { LaundryCycles = v }),
        .. HazardousAreaTargets.All,
        Environment.Choice<Level>("tamperRisk", e => e.TamperRisk, (e, v) => e with { TamperRisk = v }),
        Environment.YesNo("foodContact", e => e.FoodContact, (e, v) => e with { FoodContact = v }),
        Reading.Number("requiredRangeM", "m", r => r.RequiredRangeM, (r, v) => r with { RequiredRangeM = v }),
        Reading.Number("requiredProbability", "fraction", r => r.RequiredProbability, (r, v) => r with { RequiredProbability = v }),
        Reading.Text("region", r => r.Region, (r, v) => r with { Region = v }, t => RadioLookups.Region(t) is not null),
        Reading.Choice<ReaderKind>("readerKind", r => r.ReaderKind, (r, v) => r with { ReaderKind = v }),
        Reading.Number("eirpDbm", "dBm", r => r.EirpDbm, (r, v) => r with { EirpDbm = v }),
        Reading.Number("readerGainDbi", "dBi", r => r.ReaderGainDbi, (r, v) => r with { ReaderGainDbi = v }),
        Reading.Number("readerSensitivityDbm", "dBm", r => r.ReaderSensitivityDbm, (r, v) => r with { ReaderSensitivityDbm = v }),
        Reading.Choice<ReaderPolarization>("polarization", r => r.Polarization, (r, v) => r with { Polarization = v }),
        Reading.Text("site", r => r.Site, (r, v) => r with { Site = v }, t => RadioTables.Sites.Find(t) is not null),
        Reading.Choice<TagOrientation>("tagOrientation", r => r.TagOrientation, (r, v) => r with { TagOrientation = v }),
        Reading.WholeNumber("looks", r => r.Looks, (r, v) => r with { Looks = v }),
        Service.Number("lifeYears", "years", s => s.LifeYears, (s, v) => s with { LifeYears = v }) with { TakesDate = true },
        Service.Number("sweepsPerYear", "per-year", s => s.SweepsPerYear, (s, v) => s with { SweepsPerYear = v }),
        Service.Text("currency", s => s.Currency, (s, v) => s with { Currency = v }) with { Kind = TargetKind.Currency },
        Service.Number("labourRatePerHour", null, s => s.LabourRatePerHour, (s, v) => s with { LabourRatePerHour = v }) with { Kind = TargetKind.Money },
        Service.Number("visitMinutes", "minutes", s => s.VisitMinutes, (s, v) => s with { VisitMinutes = v }),
        Service.Number("discountRate", "fraction", s => s.DiscountRate, (s, v) => s with { DiscountRate = v }),
        Identity.Text("scheme", i => i.Scheme, (i, v) => i with { Scheme = v }, t => EpcSchemes.Find(t)?.FixedBits is not null),
        Identity.WholeNumber("epcBits", i => i.EpcBits, (i, v) => i with { EpcBits = v }),
        Identity.WholeNumber("userMemoryBits", i => i.UserMemoryBits, (i, v) => i with { UserMemoryBits = v }),
        Identity.YesNo("accessPassword", i => i.AccessPassword, (i, v) => i with { AccessPassword = v }),
    ];

    /// <summary>The currency that goes with a labour rate.</summary>
    internal static MappingTarget Currency { get; } = All.Single(t => t.Kind == TargetKind.Currency);

    private static readonly Dictionary<string, MappingTarget> ByPointer = All.ToDictionary(t => t.Pointer);

    /// <summary>The target of this pointer, or null; <c>/attributes/name</c> is a text of at most 2,000 characters.</summary>
    public static MappingTarget? Find(string pointer)
    {
        if (ByPointer.TryGetValue(pointer, out var target))
            return target;
        var isAttribute = pointer.StartsWith(AttributePrefix, StringComparison.Ordinal) && JsonPointers.IsValid(pointer)
            && pointer.Length > AttributePrefix.Length && !pointer[AttributePrefix.Length..].Contains('/', StringComparison.Ordinal);
        return isAttribute ? new() { Pointer = pointer, Kind = TargetKind.Text, Longest = AttributeLimits.LongestValue, TakesDate = true } : null;
    }

    /// <summary>The pointer that somebody most likely meant: the nearest by edit distance of its last name or of the whole; null when none is near.</summary>
    public static string? Nearest(string pointer)
    {
        var given = TextFold.Fold(pointer[(pointer.LastIndexOfAny(['/', '.']) + 1)..]);
        var best = All
            .Select(t => (t.Pointer, Name: TextFold.Fold(t.Pointer[(t.Pointer.LastIndexOf('/') + 1)..])))
            // A name that merely lacks its unit is near however long the unit is.
            .Select(t => (t.Pointer, t.Name, Distance: given.Length >= 4 && t.Name.StartsWith(given, StringComparison.Ordinal) ? 1 : EditDistance.Between(given, t.Name)))
            .MinBy(t => t.Distance);
        return best.Distance <= Math.Max(1, Math.Max(given.Length, best.Name.Length) / 3) ? best.Pointer : null;
    }

    private static bool IsMaterial(string text) => Materials.Find(text) is not null;
}
