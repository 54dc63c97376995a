namespace TagService.Domain.Recommendations;

/// <summary>The fields of a resolved asset, as a set: what a rule reads, what a change touches.</summary>
[Flags]
public enum AssetFields : long
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>Material at the surface.</summary>
    Material = 1L << 0,

    /// <summary>Coating.</summary>
    Coating = 1L << 1,

    /// <summary>Radius of curvature.</summary>
    CurvatureRadiusMm = 1L << 2,

    /// <summary>Wall thickness.</summary>
    ThicknessMm = 1L << 3,

    /// <summary>What is behind the wall.</summary>
    Backing = 1L << 4,

    /// <summary>Free length.</summary>
    LengthMm = 1L << 5,

    /// <summary>Free width.</summary>
    WidthMm = 1L << 6,

    /// <summary>Greatest height.</summary>
    MaxHeightMm = 1L << 7,

    /// <summary>Drilling allowed.</summary>
    AllowDrilling = 1L << 8,

    /// <summary>Kind of surroundings.</summary>
    Setting = 1L << 9,

    /// <summary>Lowest service temperature.</summary>
    TemperatureMinC = 1L << 10,

    /// <summary>Highest service temperature.</summary>
    TemperatureMaxC = 1L << 11,

    /// <summary>Highest short peak.</summary>
    PeakTemperatureC = 1L << 12,

    /// <summary>Temperature at application.</summary>
    ApplicationTemperatureC = 1L << 13,

    /// <summary>IP codes needed.</summary>
    IpRequired = 1L << 14,

    /// <summary>Depth of immersion.</summary>
    ImmersionM = 1L << 15,

    /// <summary>Pressure washing.</summary>
    PressureWash = 1L << 16,

    /// <summary>Impact energy.</summary>
    ImpactJ = 1L << 17,

    /// <summary>Abrasion.</summary>
    Abrasion = 1L << 18,

    /// <summary>Flexing.</summary>
    Flexing = 1L << 19,

    /// <summary>Chemicals.</summary>
    Chemicals = 1L << 20,

    /// <summary>Years of sun.</summary>
    UvYears = 1L << 21,

    /// <summary>Sterilisation cycles.</summary>
    SterilisationCycles = 1L << 22,

    /// <summary>Laundry cycles.</summary>
    LaundryCycles = 1L << 23,

    /// <summary>Explosive atmosphere.</summary>
    HazardousArea = 1L << 24,

    /// <summary>Tamper risk.</summary>
    TamperRisk = 1L << 25,

    /// <summary>Food contact.</summary>
    FoodContact = 1L << 26,

    /// <summary>Print needed.</summary>
    NeedsPrint = 1L << 27,

    /// <summary>Reader, region, place, looks.</summary>
    Reading = 1L << 28,

    /// <summary>Distance wanted.</summary>
    RequiredRangeM = 1L << 29,

    /// <summary>Probability wanted.</summary>
    RequiredProbability = 1L << 30,

    /// <summary>Life, sweeps, labour, rate: what only the cost depends on.</summary>
    Service = 1L << 31,

    /// <summary>Bits of the identity.</summary>
    EpcBits = 1L << 32,

    /// <summary>Bits of further data on the tag.</summary>
    UserMemoryBits = 1L << 33,

    /// <summary>Password against writing.</summary>
    AccessPassword = 1L << 34,

    /// <summary>What the cost of a pair depends on beside its rules and its range: labour, life, minutes of fitting.</summary>
    Cost = Service | Setting | Abrasion | Flexing | TamperRisk | HazardousArea | Coating | ApplicationTemperatureC | CurvatureRadiusMm,

    /// <summary>What a scene of the radio calculation is made of.</summary>
    Scene = Material | ThicknessMm | Backing | LengthMm | WidthMm | Reading,
}

/// <summary>Compares resolved assets.</summary>
public static class AssetComparison
{
    /// <summary>The fields in which two resolved assets differ.</summary>
    public static AssetFields Differences(ResolvedAsset a, ResolvedAsset b) =>
        If(!ReferenceEquals(a.Material, b.Material), AssetFields.Material)
        | If(!ReferenceEquals(a.Coating, b.Coating), AssetFields.Coating)
        | If(a.CurvatureRadiusMm != b.CurvatureRadiusMm, AssetFields.CurvatureRadiusMm)
        | If(a.ThicknessMm != b.ThicknessMm, AssetFields.ThicknessMm)
        | If(!ReferenceEquals(a.Backing, b.Backing), AssetFields.Backing)
        | If(a.LengthMm != b.LengthMm, AssetFields.LengthMm)
        | If(a.WidthMm != b.WidthMm, AssetFields.WidthMm)
        | If(a.MaxHeightMm != b.MaxHeightMm, AssetFields.MaxHeightMm)
        | If(a.AllowDrilling != b.AllowDrilling, AssetFields.AllowDrilling)
        | If(a.Setting != b.Setting, AssetFields.Setting)
        | If(a.TemperatureMinC != b.TemperatureMinC, AssetFields.TemperatureMinC)
        | If(a.TemperatureMaxC != b.TemperatureMaxC, AssetFields.TemperatureMaxC)
        | If(a.PeakTemperatureC != b.PeakTemperatureC, AssetFields.PeakTemperatureC)
        | If(a.ApplicationTemperatureC != b.ApplicationTemperatureC, AssetFields.ApplicationTemperatureC)
        | If(!Same(a.IpRequired, b.IpRequired), AssetFields.IpRequired)
        | If(a.ImmersionM != b.ImmersionM, AssetFields.ImmersionM)
        | If(a.PressureWash != b.PressureWash, AssetFields.PressureWash)
        | If(a.ImpactJ != b.ImpactJ, AssetFields.ImpactJ)
        | If(a.Abrasion != b.Abrasion, AssetFields.Abrasion)
        | If(a.Flexing != b.Flexing, AssetFields.Flexing)
        | If(!Same(a.Chemicals, b.Chemicals), AssetFields.Chemicals)
        | If(a.UvYears != b.UvYears, AssetFields.UvYears)
        | If(a.SterilisationCycles != b.SterilisationCycles, AssetFields.SterilisationCycles)
        | If(a.LaundryCycles != b.LaundryCycles, AssetFields.LaundryCycles)
        | If(a.HazardousArea != b.HazardousArea, AssetFields.HazardousArea)
        | If(a.TamperRisk != b.TamperRisk, AssetFields.TamperRisk)
        | If(a.FoodContact != b.FoodContact, AssetFields.FoodContact)
        | If(a.NeedsPrint != b.NeedsPrint, AssetFields.NeedsPrint)
        | If(a.EpcBits != b.EpcBits, AssetFields.EpcBits)
        | If(a.UserMemoryBits != b.UserMemoryBits, AssetFields.UserMemoryBits)
        | If(a.AccessPassword != b.AccessPassword, AssetFields.AccessPassword)
        | If(!SameReading(a.Reading, b.Reading), AssetFields.Reading)
        | If(a.RequiredRangeM != b.RequiredRangeM, AssetFields.RequiredRangeM)
        | If(a.RequiredProbability != b.RequiredProbability, AssetFields.RequiredProbability)
        | If(!SameService(a, b), AssetFields.Service);

    private static AssetFields If(bool differs, AssetFields field) => differs ? field : AssetFields.None;

    private static bool Same(IReadOnlyList<string> a, IReadOnlyList<string> b)
    {
        if (ReferenceEquals(a, b))
            return true;
        if (a.Count != b.Count)
            return false;
        for (var i = 0; i < a.Count; i++)
        {
            if (a[i] != b[i])
                return false;
        }

        return true;
    }

    // Field by field: the record's own equality would compare the region's bands as well.
    private static bool SameReading(Radio.ReadingSituation a, Radio.ReadingSituation b) =>
        ReferenceEquals(a, b)
        || (ReferenceEquals(a.Region, b.Region) && ReferenceEquals(a.Reader, b.Reader) && ReferenceEquals(a.Site, b.Site)
            && a.EirpDbm == b.EirpDbm && a.ReaderGainDbi == b.ReaderGainDbi && a.ReaderSensitivityDbm == b.ReaderSensitivityDbm
            && a.Polarization == b.Polarization && a.TagOrientation == b.TagOrientation && a.Looks == b.Looks);

    private static bool SameService(ResolvedAsset a, ResolvedAsset b) =>
        a.LifeYears == b.LifeYears && a.SweepsPerYear == b.SweepsPerYear && a.Currency == b.Currency
        && a.LabourRatePerHour == b.LabourRatePerHour && a.PriceFactor == b.PriceFactor && a.VisitMinutes == b.VisitMinutes && a.DiscountRate == b.DiscountRate;
}
