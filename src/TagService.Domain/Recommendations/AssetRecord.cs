using System.ComponentModel.DataAnnotations;

namespace TagService.Domain.Recommendations;

/// <summary>
/// What is known of one asset. Every part is optional: what is missing is assumed from the asset's category profile.
/// The nested records are also the wire format; the ranges are what physics and practice allow at all.
/// </summary>
public sealed record AssetRecord
{
    /// <summary>The register's key of the asset.</summary>
    public string? AssetId { get; init; }

    /// <summary>The register's category in its own words, any language.</summary>
    public string? Category { get; init; }

    /// <summary>Free text: type, maker's designation, remarks.</summary>
    public string? Description { get; init; }

    /// <summary>The surface the tag goes on.</summary>
    public SurfaceRecord? Surface { get; init; }

    /// <summary>The room there is for a tag.</summary>
    public MountingRecord? Mounting { get; init; }

    /// <summary>What tag and fixing must endure.</summary>
    public EnvironmentRecord? Environment { get; init; }

    /// <summary>What is inside the asset, in the register's words (water, oil, gas, empty, ...).</summary>
    public string? Contents { get; init; }

    /// <summary>How the tag is to be read.</summary>
    public ReadingRecord? Reading { get; init; }

    /// <summary>Service life, stock-takes and labour.</summary>
    public ServiceRecord? Service { get; init; }

    /// <summary>What is written to the tag.</summary>
    public IdentityRecord? Identity { get; init; }

    /// <summary>The register's own further fields, as text.</summary>
    public IReadOnlyDictionary<string, string> Attributes { get; init; } = new Dictionary<string, string>();
}

/// <summary>The surface the tag goes on.</summary>
public sealed record SurfaceRecord
{
    /// <summary>Material at the surface: an id or name of /v1/materials, or the register's own word.</summary>
    [MaxLength(200)]
    public string? Material { get; init; }

    /// <summary>Coating: bare, paint, powder-coat, galvanised, anodised, rubberised, oily, or the register's own word.</summary>
    [MaxLength(200)]
    public string? Coating { get; init; }

    /// <summary>Radius of curvature in mm where the tag goes; absent or 0 means flat.</summary>
    [Range(0, 100_000)]
    public double? CurvatureRadiusMm { get; init; }

    /// <summary>Thickness of the wall behind the tag in mm.</summary>
    [Range(0.01, 10_000)]
    public double? ThicknessMm { get; init; }

    /// <summary>What is directly behind that wall: air, metal, water, or a material of /v1/materials.</summary>
    [MaxLength(200)]
    public string? Backing { get; init; }
}

/// <summary>The room there is for a tag.</summary>
public sealed record MountingRecord
{
    /// <summary>Free length in mm.</summary>
    [Range(1, 100_000)]
    public double? LengthMm { get; init; }

    /// <summary>Free width in mm.</summary>
    [Range(1, 100_000)]
    public double? WidthMm { get; init; }

    /// <summary>Greatest height above the surface in mm that disturbs nobody.</summary>
    [Range(0.05, 10_000)]
    public double? MaxHeightMm { get; init; }

    /// <summary>May holes be drilled or threads used?</summary>
    public bool? AllowDrilling { get; init; }
}

/// <summary>What tag and fixing must endure.</summary>
public sealed record EnvironmentRecord
{
    /// <summary>Kind of surroundings.</summary>
    public Setting? Setting { get; init; }

    /// <summary>Lowest service temperature in °C.</summary>
    [Range(-200, 400)]
    public double? TemperatureMinC { get; init; }

    /// <summary>Highest continuous service temperature in °C.</summary>
    [Range(-200, 400)]
    public double? TemperatureMaxC { get; init; }

    /// <summary>Highest short peak (about ten minutes) in °C.</summary>
    [Range(-200, 1000)]
    public double? PeakTemperatureC { get; init; }

    /// <summary>Temperature of surface and air in °C when the tag is put on.</summary>
    [Range(-60, 100)]
    public double? ApplicationTemperatureC { get; init; }

    /// <summary>IP codes that must all hold, for example ["IP66","IP68"] (IEC 60529; 7, 8 and 9 do not imply 5 and 6).</summary>
    [MaxLength(8)]
    public IReadOnlyList<string>? IpRequired { get; init; }

    /// <summary>Depth of continuous immersion in m.</summary>
    [Range(0, 1000)]
    public double? ImmersionM { get; init; }

    /// <summary>Is it cleaned with a hot high-pressure washer?</summary>
    public bool? PressureWash { get; init; }

    /// <summary>Impact energy to be expected in J (IEC 62262: IK08 is 5 J, IK10 is 20 J).</summary>
    [Range(0, 1000)]
    public double? ImpactJ { get; init; }

    /// <summary>Abrasion by use and cleaning.</summary>
    public Level? Abrasion { get; init; }

    /// <summary>Repeated bending of the surface.</summary>
    public Level? Flexing { get; init; }

    /// <summary>Chemicals that reach the tag: families or the register's own words (fuel, oil, solvent, acid, caustic, chlorine, disinfectant, salt-fog).</summary>
    [MaxLength(32)]
    public IReadOnlyList<string>? Chemicals { get; init; }

    /// <summary>Years of full outdoor sun within the asset's life.</summary>
    [Range(0, 100)]
    public double? UvYears { get; init; }

    /// <summary>Steam sterilisation cycles within the asset's life.</summary>
    [Range(0, 100_000)]
    public int? SterilisationCycles { get; init; }

    /// <summary>Industrial laundry cycles within the asset's life.</summary>
    [Range(0, 100_000)]
    public int? LaundryCycles { get; init; }

    /// <summary>Explosive atmosphere the asset stands in.</summary>
    public HazardousAreaRecord? HazardousArea { get; init; }

    /// <summary>How likely people pick at the tag or take it off.</summary>
    public Level? TamperRisk { get; init; }

    /// <summary>Can the tag touch food?</summary>
    public bool? FoodContact { get; init; }
}

/// <summary>An explosive atmosphere as the site's zone drawing states it (IEC 60079-10).</summary>
public sealed record HazardousAreaRecord
{
    /// <summary>Zone: 0, 1, 2 for gas, 20, 21, 22 for dust.</summary>
    [AllowedValues("0", "1", "2", "20", "21", "22")]
    public required string Zone { get; init; }

    /// <summary>Group: IIA, IIB, IIC for gas, IIIA, IIIB, IIIC for dust.</summary>
    [AllowedValues("IIA", "IIB", "IIC", "IIIA", "IIIB", "IIIC", null)]
    public string? Group { get; init; }

    /// <summary>Temperature class T1 to T6 (gas).</summary>
    [AllowedValues("T1", "T2", "T3", "T4", "T5", "T6", null)]
    public string? TemperatureClass { get; init; }
}

/// <summary>How the tag is to be read.</summary>
public sealed record ReadingRecord
{
    /// <summary>Distance in m at which the tag must answer.</summary>
    [Range(0.005, 100)]
    public double? RequiredRangeM { get; init; }

    /// <summary>Probability with which a stock-take must read a randomly chosen such asset at that distance.</summary>
    [Range(0.01, 0.999)]
    public double? RequiredProbability { get; init; }

    /// <summary>Radio region: an id of /v1/radio-regions or an ISO 3166 country code.</summary>
    [MaxLength(60)]
    public string? Region { get; init; }

    /// <summary>Kind of reader.</summary>
    public ReaderKind? ReaderKind { get; init; }

    /// <summary>Power radiated by the reader in dBm EIRP; capped at the region's limit.</summary>
    [Range(-30, 60)]
    public double? EirpDbm { get; init; }

    /// <summary>Gain of the reader's antenna in dBi.</summary>
    [Range(-30, 30)]
    public double? ReaderGainDbi { get; init; }

    /// <summary>Weakest reply the reader decodes, in dBm.</summary>
    [Range(-130, 0)]
    public double? ReaderSensitivityDbm { get; init; }

    /// <summary>Polarisation of the reader's antenna.</summary>
    public ReaderPolarization? Polarization { get; init; }

    /// <summary>Kind of place, an id of the site models (free-space, open-yard, office, warehouse, ...).</summary>
    [MaxLength(60)]
    public string? Site { get; init; }

    /// <summary>How the tag's axis lies to the reader's polarisation.</summary>
    public TagOrientation? TagOrientation { get; init; }

    /// <summary>Independent looks a stock-taker gives each asset.</summary>
    [Range(1, 100)]
    public int? Looks { get; init; }
}

/// <summary>Service life, stock-takes and labour.</summary>
public sealed record ServiceRecord
{
    /// <summary>Remaining life of the asset in years.</summary>
    [Range(0.05, 100)]
    public double? LifeYears { get; init; }

    /// <summary>Stock-takes or sweeps a year that should read the tag.</summary>
    [Range(0, 10_000)]
    public double? SweepsPerYear { get; init; }

    /// <summary>ISO 4217 currency of all amounts; another than USD counts only together with a labour rate.</summary>
    [RegularExpression("^[A-Z]{3}$")]
    public string? Currency { get; init; }

    /// <summary>Loaded labour rate per hour in that currency.</summary>
    [Range(0, 100_000)]
    public double? LabourRatePerHour { get; init; }

    /// <summary>Minutes to travel to, find and reach the asset for one visit.</summary>
    [Range(0, 10_000)]
    public double? VisitMinutes { get; init; }

    /// <summary>Real annual discount rate as a fraction.</summary>
    [Range(-0.5, 1)]
    public double? DiscountRate { get; init; }
}

/// <summary>What is written to the tag, as far as its memory has to hold it.</summary>
public sealed record IdentityRecord
{
    /// <summary>EPC scheme of fixed length, for example GIAI-96, GIAI-202, GRAI-170, SGTIN-198 (GS1 EPC Tag Data Standard).</summary>
    [MaxLength(20)]
    public string? Scheme { get; init; }

    /// <summary>Length of the identity in bits, for schemes of variable length; /v1/identities/encode says how many one needs.</summary>
    [Range(16, 496)]
    public int? EpcBits { get; init; }

    /// <summary>Further data to be kept on the tag, in bits.</summary>
    [Range(0, 10_000_000)]
    public int? UserMemoryBits { get; init; }

    /// <summary>Writing must be guarded by a password.</summary>
    public bool? AccessPassword { get; init; }
}
