using TagService.Domain.Surfaces;
using TagService.Domain.Units;

namespace TagService.Domain.Radio;

/// <summary>Where the tag sits.</summary>
public sealed record MountedSurface
{
    /// <summary>Material at the surface.</summary>
    public required Material Material { get; init; }

    /// <summary>Thickness of that material in mm.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>What is directly behind it.</summary>
    public required Material Backing { get; init; }

    /// <summary>Distance in mm the fixing adds between tag and surface.</summary>
    public required double AddedStandoffMm { get; init; }

    /// <summary>Free length of the surface in mm, taken as the metal plate's longer side where it is metal.</summary>
    public required double LengthMm { get; init; }

    /// <summary>Free width of the surface in mm.</summary>
    public required double WidthMm { get; init; }

    /// <summary>Greatest height above the surface in mm for tag and spacer together; limits the spacer curve only. Absent: not stated.</summary>
    public double? MaxHeightMm { get; init; }
}

/// <summary>What limits a range.</summary>
public enum RangeLimit
{
    /// <summary>The reader's power reaching the chip.</summary>
    Forward,

    /// <summary>The tag's reply reaching the reader.</summary>
    Return,

    /// <summary>HF: the reader coil's field.</summary>
    Field,

    /// <summary>The class does not usefully read on this surface.</summary>
    DoesNotRead,

    /// <summary>Reader and tag class use different air interfaces.</summary>
    WrongReader,
}

/// <summary>One line of the loss budget.</summary>
/// <param name="Step">What it is.</param>
/// <param name="ValueDb">Contribution in dB (or dBm for powers), gains positive.</param>
/// <param name="LevelDbm">Level after the step.</param>
/// <param name="Note">How it came about, with its figures.</param>
/// <param name="Source">Formula's or value's source.</param>
public sealed record LossBudgetLine(string Step, double ValueDb, double LevelDbm, string Note, string Source);

/// <summary>Expected range of one tag class on one surface for one reading situation: a distribution over such assets.</summary>
public sealed record RangeEstimate
{
    /// <summary>Distance that 90 % of such assets exceed (10 % fall short), one look.</summary>
    public required Metres P10 { get; init; }

    /// <summary>Median distance.</summary>
    public required Metres P50 { get; init; }

    /// <summary>Distance that 10 % of such assets exceed.</summary>
    public required Metres P90 { get; init; }

    /// <summary>What limits the median range.</summary>
    public required RangeLimit LimitedBy { get; init; }

    /// <summary>Why the class does not read here, with the numbers; absent when it reads.</summary>
    public string? DoesNotReadBecause { get; init; }
}
