using TagService.Domain.Recommendations;

namespace TagService.Domain.Radio;

/// <summary>Reader, rules of the air and place, all given.</summary>
public sealed record ReadingSituation
{
    /// <summary>Region with its bands and limits.</summary>
    public required RadioRegion Region { get; init; }

    /// <summary>Kind of reader with its planning defaults.</summary>
    public required ReaderKindRow Reader { get; init; }

    /// <summary>Path model of the place.</summary>
    public required SiteModel Site { get; init; }

    /// <summary>Radiated power stated by the user, dBm EIRP; absent: the kind's default. Always capped by the band's limit.</summary>
    public double? EirpDbm { get; init; }

    /// <summary>Reader antenna gain stated by the user, dBi.</summary>
    public double? ReaderGainDbi { get; init; }

    /// <summary>Reader sensitivity stated by the user, dBm.</summary>
    public double? ReaderSensitivityDbm { get; init; }

    /// <summary>Polarisation of the reader's antenna.</summary>
    public required ReaderPolarization Polarization { get; init; }

    /// <summary>Tag axis against the reader's.</summary>
    public required TagOrientation TagOrientation { get; init; }

    /// <summary>Independent looks in one stock-take, at least 1.</summary>
    public required int Looks { get; init; }
}
