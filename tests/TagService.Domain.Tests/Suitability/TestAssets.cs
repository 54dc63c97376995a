using CsCheck;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Tests.Suitability;

/// <summary>Invented assets with every field given, independent of the product's own tables of materials and profiles.</summary>
internal static class TestAssets
{
    private const string Invented = "invented for tests";

    public static Coating Bare { get; } = new()
    {
        Id = "bare", Name = "bare", Synonyms = [], Roughness = SurfaceRoughness.Normal, Source = Invented,
    };

    public static Material Steel { get; } = Solid("steel", MaterialKind.Metal, 200, 700, 1100);

    /// <summary>Nothing to fear: indoors, flat, bare, metres of room, drilling allowed, nothing printed.</summary>
    public static ResolvedAsset Benign(Material? material = null, Coating? coating = null) => new()
    {
        Profile = new()
        {
            Id = "test", Name = "test", Words = new Dictionary<string, IReadOnlyList<string>>(), Typical = new(),
            Alternatives = [], Cautions = [], Source = Invented,
        },
        Material = material ?? Steel,
        Coating = coating ?? Bare,
        CurvatureRadiusMm = 0,
        ThicknessMm = 50,
        Backing = Material("air", MaterialKind.Air),
        LengthMm = 2000,
        WidthMm = 2000,
        MaxHeightMm = 1000,
        AllowDrilling = true,
        Setting = Setting.Indoor,
        TemperatureMinC = 15,
        TemperatureMaxC = 30,
        PeakTemperatureC = 30,
        ApplicationTemperatureC = 20,
        IpRequired = [],
        ImmersionM = 0,
        PressureWash = false,
        ImpactJ = 0,
        Abrasion = Level.None,
        Flexing = Level.None,
        Chemicals = [],
        UvYears = 0,
        SterilisationCycles = 0,
        LaundryCycles = 0,
        TamperRisk = Level.None,
        FoodContact = false,
        NeedsPrint = false,
        EpcBits = 96,
        UserMemoryBits = 0,
        AccessPassword = false,
        RequiredRangeM = 2,
        RequiredProbability = 0.9,
        Reading = Reading(ReaderKind.Handheld),
        LifeYears = 8,
        SweepsPerYear = 1,
        Currency = "USD",
        LabourRatePerHour = 40,
        PriceFactor = 1,
        VisitMinutes = 10,
        DiscountRate = 0.03,
    };

    private static readonly Gen<Level> s_anyLevel = Gen.OneOf(Level.None, Level.Low, Level.Medium, Level.High);

    /// <summary>Any asset the service accepts, and some it would not.</summary>
    public static Gen<ResolvedAsset> Any { get; } =
        from surface in Gen.Select(
            Gen.OneOf(Steel, Solid("abs", MaterialKind.Dielectric, 35, 38.5, 42), Solid("pp", MaterialKind.Dielectric, 29, 30.5, 31),
                Material("textile", MaterialKind.Textile), Material("muscle", MaterialKind.Tissue), Material("water", MaterialKind.Liquid)),
            Gen.OneOf(Bare, Bare with { Roughness = SurfaceRoughness.VeryRough }, Bare with { MustBeRemoved = true, Name = "oily" },
                Bare with { SurfaceEnergyMnPerM = new(30, 37, 45) }),
            Gen.OneOf<double>(Gen.Const(0.0), Gen.Double[1, 2000]))
        from room in Gen.Select(Gen.Double[1, 400], Gen.Double[1, 400], Gen.Double[0.05, 60], Gen.Double[0.1, 100])
        from heat in Gen.Select(Gen.Double[-200, 400], Gen.Double[0, 300], Gen.Double[0, 300], Gen.Double[-60, 100])
        from wet in Gen.Select(
            Gen.OneOf("66", "IP68", "69", "54", "X7", "20", "nonsense").Array[0, 3], Gen.Double[0, 10], Gen.Bool)
        from wear in Gen.Select(Gen.Double[0, 60], s_anyLevel, s_anyLevel, s_anyLevel, Gen.Double[0, 30])
        from dose in Gen.Select(Gen.Int[0, 2000], Gen.Int[0, 500], Gen.Bool, Gen.Bool, Gen.Bool)
        from chemicals in Gen.OneOf("fuel", "oil", "caustic", "chlorine", "salt-fog", "unobtainium").Array[0, 3]
        from area in Gen.OneOf<HazardousAreaRecord?>(null, new HazardousAreaRecord { Zone = "1", Group = "IIB", TemperatureClass = "T4" },
            new HazardousAreaRecord { Zone = "21" })
        from identity in Gen.Select(Gen.Int[16, 496], Gen.Int[0, 1000], Gen.Bool)
        select Benign(surface.Item1, surface.Item2) with
        {
            CurvatureRadiusMm = surface.Item3,
            LengthMm = room.Item1,
            WidthMm = room.Item2,
            MaxHeightMm = room.Item3,
            ThicknessMm = room.Item4,
            TemperatureMinC = heat.Item1,
            TemperatureMaxC = heat.Item1 + heat.Item2,
            PeakTemperatureC = heat.Item1 + heat.Item2 + heat.Item3,
            ApplicationTemperatureC = heat.Item4,
            IpRequired = wet.Item1,
            ImmersionM = wet.Item2,
            PressureWash = wet.Item3,
            ImpactJ = wear.Item1,
            Abrasion = wear.Item2,
            Flexing = wear.Item3,
            TamperRisk = wear.Item4,
            UvYears = wear.Item5,
            SterilisationCycles = dose.Item1,
            LaundryCycles = dose.Item2,
            AllowDrilling = dose.Item3,
            FoodContact = dose.Item4,
            NeedsPrint = dose.Item5,
            Chemicals = chemicals,
            HazardousArea = area,
            EpcBits = identity.Item1,
            UserMemoryBits = identity.Item2,
            AccessPassword = identity.Item3,
        };

    public static Material Material(string id, MaterialKind kind) =>
        new() { Id = id, Name = id, Synonyms = [], Kind = kind, Source = Invented };

    public static Material Solid(string id, MaterialKind kind, double low, double usual, double high) =>
        Material(id, kind) with { SurfaceEnergyMnPerM = new(low, usual, high) };

    public static ReadingSituation Reading(ReaderKind kind) => new()
    {
        Region = RadioTables.Regions["eu"],
        Reader = RadioTables.Readers[kind.ToString()],
        Site = new() { Id = "test", Name = "test", BreakpointM = 1, PathExponent = 2, LookSigmaDb = 3, Source = Invented },
        Polarization = ReaderPolarization.Circular,
        TagOrientation = TagOrientation.Any,
        Looks = 3,
    };
}
