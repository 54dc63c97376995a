namespace TagService.Domain.Profiles;

/// <summary>The fields of a record that can be filled, in the order in which they are listed.</summary>
internal enum ResolvedField
{
    Material,
    Coating,
    CurvatureRadiusMm,
    ThicknessMm,
    Backing,
    LengthMm,
    WidthMm,
    MaxHeightMm,
    AllowDrilling,
    Setting,
    TemperatureMinC,
    TemperatureMaxC,
    PeakTemperatureC,
    ApplicationTemperatureC,
    IpRequired,
    ImmersionM,
    PressureWash,
    ImpactJ,
    Abrasion,
    Flexing,
    Chemicals,
    UvYears,
    SterilisationCycles,
    LaundryCycles,
    HazardousArea,
    TamperRisk,
    FoodContact,
    Contents,
    RequiredRangeM,
    RequiredProbability,
    Region,
    ReaderKind,
    EirpDbm,
    ReaderGainDbi,
    ReaderSensitivityDbm,
    Polarization,
    Site,
    TagOrientation,
    Looks,
    LifeYears,
    SweepsPerYear,
    Currency,
    LabourRatePerHour,
    VisitMinutes,
    DiscountRate,
    EpcBits,
    NeedsPrint,
}

/// <summary>JSON pointers of the fields.</summary>
internal static class ResolvedFields
{
    private static readonly string[] Pointers =
        [.. Enum.GetValues<ResolvedField>().Select(f => GroupOf(f) + char.ToLowerInvariant(f.ToString()[0]) + f.ToString()[1..])];

    public static int Count => Pointers.Length;

    public static string PointerOf(ResolvedField field) => Pointers[(int)field];

    private static string GroupOf(ResolvedField field) => field switch
    {
        <= ResolvedField.Backing => "/surface/",
        <= ResolvedField.AllowDrilling => "/mounting/",
        <= ResolvedField.FoodContact => "/environment/",
        ResolvedField.Contents => "/",
        <= ResolvedField.Looks => "/reading/",
        <= ResolvedField.DiscountRate => "/service/",
        ResolvedField.EpcBits => "/identity/",
        _ => "/attributes/",
    };
}
