using TagService.Domain.Recommendations;
using TagService.Domain.Surfaces;

namespace TagService.Domain.Suitability;

/// <summary>A way of fixing a tag: its limits, its labour, its steps.</summary>
public sealed record AttachmentMethod
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain name.</summary>
    public required string Name { get; init; }

    /// <summary>Kind of fixing.</summary>
    public required AttachmentKind Kind { get; init; }

    /// <summary>Kinds of material it works on.</summary>
    public required IReadOnlyList<MaterialKind> WorksOn
    {
        get;
        init
        {
            field = value;
            WorksOnKinds = value.Aggregate(0u, static (set, kind) => set | (1u << (int)kind));
        }
    }

    /// <summary>Ids of the only materials it works on; absent: all of the kinds of <see cref="WorksOn"/>.</summary>
    public IReadOnlyList<string>? OnlyMaterials { get; init; }

    /// <summary>Ids of materials it does not work on although their kind is allowed (screws in glass).</summary>
    public IReadOnlyList<string>? ExceptMaterials { get; init; }

    /// <summary>Goes round or through something (pipe, handle, rail, eye): the largest radius of it in mm; absent: it does not.</summary>
    public double? GripRadiusMm { get; init; }

    /// <summary>Possible only while the asset or part is being made.</summary>
    public bool AtManufactureOnly { get; init; }

    /// <summary>Holds under water for good.</summary>
    public bool HoldsUnderWater { get; init; } = true;

    /// <summary>Holds against hot high-pressure jets.</summary>
    public bool HoldsUnderJets { get; init; } = true;

    /// <summary>Adhesive figures; absent for fixings without adhesive.</summary>
    public AdhesiveLimits? Adhesive { get; init; }

    /// <summary>Needs holes, threads, rivets or welding.</summary>
    public bool NeedsDrilling { get; init; }

    /// <summary>Distance in mm it adds between tag and surface (adhesive, washers, hanging).</summary>
    public double AddedStandoffMm { get; init; }

    /// <summary>Lowest service temperature in °C of the fixing itself.</summary>
    public required double TemperatureMinC { get; init; }

    /// <summary>Highest service temperature in °C of the fixing itself.</summary>
    public required double TemperatureMaxC { get; init; }

    /// <summary>Highest short peak in °C of the fixing itself.</summary>
    public required double PeakTemperatureC { get; init; }

    /// <summary>Free margin in mm needed around the tag (screw heads, tie, squeeze-out).</summary>
    public double MarginMm { get; init; }

    /// <summary>Resistance against prying.</summary>
    public required Level TamperResistance { get; init; }

    /// <summary>Holds on surfaces that bend.</summary>
    public required Level Flexing { get; init; }

    /// <summary>Material of the fixing, a key of the chemical compatibility table.</summary>
    public required string FixingMaterial
    {
        get;
        init
        {
            field = value;
            FixingContacts = Chemicals.ContactsOf(value);
        }
    }

    /// <summary>Minutes for preparing and fixing, planning value.</summary>
    public required double Minutes { get; init; }

    /// <summary>Consumables for one tag, in USD as the built-in tag classes.</summary>
    public required double ConsumablesPrice { get; init; }

    /// <summary>Factor on the class's life scale (1 is the class's own reference fixing).</summary>
    public required double LifeFactor { get; init; }

    /// <summary>Ids of the fitter's steps in order.</summary>
    public required IReadOnlyList<string> Steps { get; init; }

    /// <summary>Ids of the cautions that always go with it.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }

    /// <summary><see cref="WorksOn"/> as one set of bits.</summary>
    internal uint WorksOnKinds { get; private init; }

    /// <summary>What the compatibility table says of <see cref="FixingMaterial"/>, looked up once.</summary>
    internal MaterialContacts FixingContacts { get; private init; } = MaterialContacts.None;
}

/// <summary>Kind of fixing.</summary>
public enum AttachmentKind
{
    /// <summary>Pressure-sensitive or cured adhesive.</summary>
    Adhesive,

    /// <summary>Screws.</summary>
    Screw,

    /// <summary>Blind or solid rivets.</summary>
    Rivet,

    /// <summary>Cable tie.</summary>
    Tie,

    /// <summary>Metal or textile strap around the asset.</summary>
    Strap,

    /// <summary>Weld stud or welded carrier.</summary>
    Weld,

    /// <summary>Set into a recess or moulded in.</summary>
    Embed,

    /// <summary>Sewn or heat-sealed into textile.</summary>
    Sew,

    /// <summary>Hung on a ring or cord.</summary>
    Hang,

    /// <summary>Driven in like a nail.</summary>
    Nail,

    /// <summary>Animal: ear or under the skin, by a competent person.</summary>
    Animal,
}

/// <summary>Limits of an adhesive.</summary>
public sealed record AdhesiveLimits
{
    /// <summary>Family: acrylic, rubber, silicone, epoxy, ...</summary>
    public required string Family { get; init; }

    /// <summary>Lowest surface energy in mN/m on which it holds.</summary>
    public required double MinSurfaceEnergyMnPerM { get; init; }

    /// <summary>Lowest temperature in °C of surface and air while it is put on.</summary>
    public required double MinApplicationTemperatureC { get; init; }

    /// <summary>Roughest surface on which it holds.</summary>
    public required SurfaceRoughness MaxRoughness { get; init; }

    /// <summary>Hours until full bond.</summary>
    public required double FullBondHours { get; init; }
}
