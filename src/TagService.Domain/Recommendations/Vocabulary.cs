namespace TagService.Domain.Recommendations;

/// <summary>Kind of surroundings; drives severity, sun, wet and handling assumptions.</summary>
public enum Setting
{
    /// <summary>Heated office or dwelling.</summary>
    Office,

    /// <summary>Other indoor rooms, dry.</summary>
    Indoor,

    /// <summary>Laboratory: disinfectants, solvents in small amounts.</summary>
    Laboratory,

    /// <summary>Hospital and care: disinfectants many times a day.</summary>
    Clinical,

    /// <summary>Warehouse and store.</summary>
    Warehouse,

    /// <summary>Cold store and freezer.</summary>
    ColdStore,

    /// <summary>Workshop: oil, knocks.</summary>
    Workshop,

    /// <summary>Process plant: wet, hot or chemical areas.</summary>
    Plant,

    /// <summary>On or in vehicles.</summary>
    Vehicle,

    /// <summary>Outdoors under a roof.</summary>
    OutdoorSheltered,

    /// <summary>Outdoors in sun and rain.</summary>
    Outdoor,

    /// <summary>Building site, quarry, forest: outdoors with rough handling.</summary>
    RoughSite,

    /// <summary>Sea air and spray.</summary>
    Marine,

    /// <summary>In soil or in flooded chambers.</summary>
    Buried,

    /// <summary>Industrial laundry.</summary>
    Laundry,
}

/// <summary>Kind of reader.</summary>
public enum ReaderKind
{
    /// <summary>Carried by a person.</summary>
    Handheld,

    /// <summary>Fixed reader with its antennas.</summary>
    Fixed,

    /// <summary>Mounted on a vehicle or truck.</summary>
    Vehicle,

    /// <summary>Telephone with near-field communication (13.56 MHz only).</summary>
    Phone,
}

/// <summary>Polarisation of a reader's antenna.</summary>
public enum ReaderPolarization
{
    /// <summary>Circular: half the power reaches a linear tag, whatever its roll.</summary>
    Circular,

    /// <summary>Linear: best when aligned, nothing when crossed.</summary>
    Linear,
}

/// <summary>How the tag's axis lies to the reader's polarisation.</summary>
public enum TagOrientation
{
    /// <summary>Kept parallel to a linear reader's axis.</summary>
    Aligned,

    /// <summary>Unknown or changing: a distribution over angles.</summary>
    Any,

    /// <summary>At right angles most of the time.</summary>
    Crossed,
}
