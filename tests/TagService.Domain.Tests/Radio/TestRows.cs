using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;
using TagService.Domain.TagClasses;

namespace TagService.Domain.Tests.Radio;

/// <summary>Invented classes, materials and situations, so that the radio tests do not hang on the catalogue's rows.</summary>
internal static class TestRows
{
    public static readonly Material Air = Of("air", MaterialKind.Air);
    public static readonly Material Steel = Of("steel", MaterialKind.Metal);
    public static readonly Material Cardboard = Of("cardboard", MaterialKind.Dielectric, Constant(1.3, 0.01));
    public static readonly Material Polypropylene = Of("polypropylene", MaterialKind.Dielectric, Constant(2.25, 0.0005));
    public static readonly Material Abs = Of("abs", MaterialKind.Dielectric, Constant(2.8, 0.008));
    public static readonly Material Wood = Of("wood", MaterialKind.Dielectric, Itu(1.99, 0, 0.0047, 1.0718));
    public static readonly Material Glass = Of("glass", MaterialKind.Dielectric, Itu(6.31, 0, 0.0036, 1.3394));
    public static readonly Material Concrete = Of("concrete", MaterialKind.Dielectric, Itu(5.24, 0, 0.0462, 0.7822));
    public static readonly Material Water = Of("water", MaterialKind.Liquid, new() { Model = PermittivityFormula.Water });
    public static readonly Material Muscle = Of("muscle", MaterialKind.Tissue, new() { Model = PermittivityFormula.ColeCole4, Tissue = "muscle" });
    public static readonly Material Cotton = Of("cotton", MaterialKind.Textile, Constant(1.6, 0.02));

    public static readonly Material[] Materials =
        [Air, Steel, Cardboard, Polypropylene, Abs, Wood, Glass, Concrete, Water, Muscle, Cotton];

    /// <summary>Label 95 x 15 mm: half-wave class.</summary>
    public static readonly TagClass LargeLabel = Dipole("large-label", 95, 20, 2, 150);
    public static readonly TagClass SmallLabel = Dipole("small-label", 45, 18, -1.5, 80);
    public static readonly TagClass FoamLabel = Dipole("foam-label", 95, 22, 2, 120, standoffMm: 3.5);
    public static readonly TagClass HardTag = Ground("hard-tag", 80, 20, 3, 12, 200);
    public static readonly TagClass SmallHardTag = Ground("small-hard-tag", 36, 10, -6, 8, 150);
    public static readonly TagClass HfLabel = Hf("hf-label", TagTechnology.Hf15693, AntennaKind.HfLoop, 0.15, 2500);
    public static readonly TagClass NfcDisc = Hf("nfc-disc", TagTechnology.Hf14443, AntennaKind.HfLoop, 1.5, 600);
    public static readonly TagClass NfcFerriteDisc = Hf("nfc-ferrite-disc", TagTechnology.Hf14443, AntennaKind.HfFerriteLoop, 1.5, 600);

    public static readonly TagClass[] UhfClasses = [LargeLabel, SmallLabel, FoamLabel, HardTag, SmallHardTag];
    public static readonly TagClass[] HfClasses = [HfLabel, NfcDisc, NfcFerriteDisc];
    public static readonly TagClass[] Classes = [.. UhfClasses, .. HfClasses];

    public static MountedSurface On(Material material, double thicknessMm = 3, Material? backing = null, double standoffMm = 0,
        double lengthMm = 300, double widthMm = 300) => new()
        {
            Material = material,
            ThicknessMm = thicknessMm,
            Backing = backing ?? Air,
            AddedStandoffMm = standoffMm,
            LengthMm = lengthMm,
            WidthMm = widthMm,
        };

    public static ReadingSituation Reading(
        string region = "us", ReaderKind reader = ReaderKind.Fixed, string site = "free-space", int looks = 1,
        ReaderPolarization polarization = ReaderPolarization.Circular, TagOrientation orientation = TagOrientation.Any) => new()
        {
            Region = RadioTables.Regions[region],
            Reader = RadioTables.Readers[reader.ToString()],
            Site = RadioTables.Sites[site],
            Polarization = polarization,
            TagOrientation = orientation,
            Looks = looks,
        };

    public static TagClass Dipole(string id, double lengthMm, double widthMm, double gainDbi, double bandwidthMhz,
        double standoffMm = 0, double thresholdDbm = -18) => Class(id, TagTechnology.Uhf, lengthMm, widthMm, 0.3 + standoffMm, new()
        {
            Kind = AntennaKind.Dipole,
            ReferenceGainDbi = gainDbi,
            BandwidthMhz = bandwidthMhz,
            StandoffMm = standoffMm,
            ThresholdDbm = thresholdDbm,
        });

    public static TagClass Ground(string id, double lengthMm, double widthMm, double gainDbi, double offMetalDb, double plateMm,
        double thresholdDbm = -18) => Class(id, TagTechnology.Uhf, lengthMm, widthMm, 6, new()
        {
            Kind = AntennaKind.GroundPlane,
            ReferenceGainDbi = gainDbi,
            BandwidthMhz = 25,
            ThresholdDbm = thresholdDbm,
            ReferencePlateMm = plateMm,
            OffMetalPenaltyDb = offMetalDb,
        });

    public static TagClass Hf(string id, TagTechnology technology, AntennaKind kind, double thresholdAPerM, double areaMm2) =>
        Class(id, technology, 50, 50, 0.3, new() { Kind = kind, ThresholdAPerM = thresholdAPerM, CoilAreaMm2 = areaMm2 });

    private static TagClass Class(string id, TagTechnology technology, double lengthMm, double widthMm, double heightMm, TagAntenna antenna) => new()
    {
        Id = id,
        Name = id,
        Description = "Invented for tests.",
        Family = id,
        Technology = technology,
        Size = new(lengthMm, widthMm, heightMm),
        Antenna = antenna,
        Limits = new()
        {
            TemperatureMinC = -20,
            TemperatureMaxC = 70,
            PeakTemperatureC = 80,
            IpCodes = [],
            Abrasion = Level.None,
            Flexing = Level.None,
            UvYears = 1,
            FaceMaterial = "pet",
            TamperResistance = Level.None,
            Printable = true,
        },
        AttachmentMethods = ["adhesive"],
        Memory = new(96, 0, true),
        Price = new(0.1, 0.2, 0.3, "EUR", 1000),
        ApplicationMinutes = 1,
        Life = new(1.5, 8, 10),
        Source = "invented for tests",
    };

    private static Material Of(string id, MaterialKind kind, PermittivityModel? model = null) => new()
    {
        Id = id,
        Name = id,
        Synonyms = [],
        Kind = kind,
        Permittivity = model,
        Source = "invented for tests",
    };

    private static PermittivityModel Constant(double eps, double tan) =>
        new() { Model = PermittivityFormula.Constant, RelativePermittivity = eps, LossTangent = tan };

    private static PermittivityModel Itu(params double[] abcd) => new() { Model = PermittivityFormula.ItuP2040, Coefficients = abcd };
}
