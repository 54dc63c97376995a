using System.ComponentModel.DataAnnotations;

namespace TagService.Domain.TagClasses;

/// <summary>
/// A kind of tag by construction, size, antenna type, protection and ways of attachment; not a manufacturer's article.
/// All values are planning values unless <see cref="Source"/> says otherwise.
/// </summary>
public sealed record TagClass
{
    /// <summary>Stable kebab-case id.</summary>
    public required string Id { get; init; }

    /// <summary>Plain name for people.</summary>
    public required string Name { get; init; }

    /// <summary>One sentence: what it is and where it belongs.</summary>
    public required string Description { get; init; }

    /// <summary>Classes of one construction in several sizes share a family: the larger must read no shorter.</summary>
    public required string Family { get; init; }

    /// <summary>Air interface.</summary>
    public required TagTechnology Technology { get; init; }

    /// <summary>Outer dimensions.</summary>
    public required TagSize Size { get; init; }

    /// <summary>Electrical figures on the reference surface.</summary>
    public required TagAntenna Antenna { get; init; }

    /// <summary>What the construction bears.</summary>
    public required TagLimits Limits { get; init; }

    /// <summary>Ids of the attachment methods this construction allows.</summary>
    public required IReadOnlyList<string> AttachmentMethods { get; init; }

    /// <summary>Chip memory as the class offers it.</summary>
    public required TagMemory Memory { get; init; }

    /// <summary>Certificate for explosive atmospheres on record; none in the built-in catalogue.</summary>
    public HazardousAreaCertificate? Certificate { get; init; }

    /// <summary>Price band for one tag.</summary>
    public required PriceBand Price { get; init; }

    /// <summary>Minutes to handle and place one tag, without the attachment method's own minutes.</summary>
    public required double ApplicationMinutes { get; init; }

    /// <summary>Weibull life prior in benign indoor surroundings.</summary>
    public required LifePrior Life { get; init; }

    /// <summary>Ids of the cautions that always go with it (a battery, a place in the driver's view).</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>Where the figures come from.</summary>
    public required string Source { get; init; }
}

/// <summary>Air interface of a tag class.</summary>
public enum TagTechnology
{
    /// <summary>860-960 MHz backscatter, ISO/IEC 18000-63.</summary>
    Uhf,

    /// <summary>13.56 MHz vicinity, ISO/IEC 15693.</summary>
    Hf15693,

    /// <summary>13.56 MHz proximity (NFC), ISO/IEC 14443.</summary>
    Hf14443,
}

/// <summary>Outer dimensions in millimetres; length is the longest side.</summary>
/// <param name="LengthMm">Length in mm.</param>
/// <param name="WidthMm">Width in mm.</param>
/// <param name="HeightMm">Height in mm above the surface.</param>
public sealed record TagSize(
    [property: Range(0.5, 700)] double LengthMm,
    [property: Range(0.1, 500)] double WidthMm,
    [property: Range(0.01, 100)] double HeightMm);

/// <summary>Chip memory in bits.</summary>
/// <param name="EpcBits">EPC memory in bits.</param>
/// <param name="UserBits">User memory in bits; 0 if none.</param>
/// <param name="AccessPassword">Has an access password.</param>
public sealed record TagMemory(
    [property: Range(0, 4096)] int EpcBits, [property: Range(0, 10_000_000)] int UserBits, bool AccessPassword);

/// <summary>Price of one tag at the stated quantity, ISO 4217 currency.</summary>
/// <param name="Low">Low price in that currency.</param>
/// <param name="Typical">Usual price in that currency.</param>
/// <param name="High">High price in that currency.</param>
/// <param name="Currency">ISO 4217 code.</param>
/// <param name="AtQuantity">Number of tags bought at once for which the prices hold.</param>
/// <param name="ValidUntil">Last day of a quote; absent if it does not end.</param>
public sealed record PriceBand(
    double Low, double Typical, double High, string Currency, int AtQuantity, DateOnly? ValidUntil = null);

/// <summary>Weibull prior of the life of an attachment and how many observed failures it is worth.</summary>
/// <param name="Shape">Weibull shape, without unit: above 1 wear, 1 chance.</param>
/// <param name="ScaleYears">Weibull scale in years: 63 % have failed by then.</param>
/// <param name="EquivalentFailures">Number of observed failures that the prior weighs as much as.</param>
public sealed record LifePrior(
    [property: Range(0.5, 6)] double Shape,
    [property: Range(0.1, 100)] double ScaleYears,
    [property: Range(0.1, 1000)] double EquivalentFailures);

/// <summary>A certificate for explosive atmospheres as its holder recorded it (IEC 60079-0 marking).</summary>
/// <param name="Number">Number of the certificate.</param>
/// <param name="EquipmentProtectionLevel">Equipment protection level, for example Gb.</param>
/// <param name="Group">Group: IIA, IIB, IIC for gas, IIIA, IIIB, IIIC for dust.</param>
/// <param name="TemperatureClass">Temperature class T1 to T6 (gas).</param>
/// <param name="ValidUntil">Last day of validity; absent if it does not end.</param>
public sealed record HazardousAreaCertificate(
    [property: MinLength(1), MaxLength(100)] string Number,
    [property: AllowedValues("Ga", "Gb", "Gc", "Da", "Db", "Dc")] string EquipmentProtectionLevel,
    [property: AllowedValues("IIA", "IIB", "IIC", "IIIA", "IIIB", "IIIC")] string Group,
    [property: AllowedValues("T1", "T2", "T3", "T4", "T5", "T6")] string TemperatureClass,
    DateOnly? ValidUntil = null);
