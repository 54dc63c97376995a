namespace TagService.Domain.Radio;

/// <summary>
/// Constants of the range model that are judgement, not physics: each is a planning value of common practice unless its line
/// names a source. Field calibration corrects what they get wrong for a class on a surface.
/// </summary>
public static class PlanningValues
{
    /// <summary>
    /// Layer (a), class x surface, standard deviation in dB one way: half of the +-5 dB band that the published material
    /// measurements leave (range x0.56 to x1.78).
    /// </summary>
    public const double ClassSurfaceSigmaDb = 2.5;

    /// <summary>Layer (b), tag to tag (chip and antenna tolerance, exact place and pressure of mounting), dB one way.</summary>
    public const double TagSigmaDb = 1.2;

    /// <summary>Layer (c) at HF: how exactly the reader is held to the tag, dB of field.</summary>
    public const double HfLookSigmaDb = 2;

    /// <summary>
    /// A UHF class whose realised gain on the object is below this does not read there: 30 dB below a good label, about a
    /// thirtieth of its range.
    /// </summary>
    public const double GainFloorDbi = -25;

    /// <summary>A UHF class with a median range below this (m) is no use for a stock-take: the reader has to touch the tag.</summary>
    public const double UsefulRangeM = 0.2;

    /// <summary>An HF class with a median range below this (m) does not read: less than a reader's own housing wall.</summary>
    public const double UsefulHfRangeM = 0.005;

    /// <summary>Distance in mm between a label's conductor and the surface when no spacer is there: adhesive and carrier film.</summary>
    public const double AdhesiveMm = 0.1;

    /// <summary>Depth in mm over which a label's near field decays into what is behind it: a few strip widths.</summary>
    public const double NearFieldDepthMm = 4;

    /// <summary>
    /// Effective permittivity up to which a label stays tuned: labels for dielectrics are laid out to work from air and cardboard
    /// to about 2 mm of plastic.
    /// </summary>
    public const double TunedPermittivity = 1.2;

    /// <summary>
    /// Largest detuning loss as a power ratio, 1 + 19.5 = 13.1 dB: the largest loss published for an unadapted tag on a solid
    /// dielectric is 12.9 dB (De Donno et al., PIER C 45, 2013: 22 m on foam, 5 m on wood; read).
    /// </summary>
    public const double DetuningCeiling = 19.5;

    /// <summary>Bandwidth in MHz taken for a dipole class that states none.</summary>
    public const double DefaultBandwidthMhz = 100;

    /// <summary>
    /// 3 dB match bandwidth in MHz of a straight half-wave dipole; a class of less bandwidth stores more energy, and its
    /// reactance moves in proportion when metal comes near.
    /// </summary>
    public const double HalfWaveBandwidthMhz = 200;

    /// <summary>Spacing in mm at which a ground-plane tag's coupling to the metal behind it has fallen to 1/e.</summary>
    public const double GroundCouplingMm = 20;

    /// <summary>HF: effective area in mm^2 of a card-size coil, for which the standards' thresholds hold (ID-1 card, about 72 x 42 mm).</summary>
    public const double CardCoilAreaMm2 = 3000;

    /// <summary>HF: loss in dB of field of a ferrite-backed coil on metal (no measured table was found).</summary>
    public const double FerriteOnMetalDb = 6;

    /// <summary>HF: loss in dB of field by detuning of an unshielded coil close to metal, beside the cancelled field.</summary>
    public const double HfMetalDetuningDb = 6;
}
