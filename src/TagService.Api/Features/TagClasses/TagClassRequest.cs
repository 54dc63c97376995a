using System.ComponentModel.DataAnnotations;
using TagService.Domain.TagClasses;

namespace TagService.Api.Features.TagClasses;

/// <summary>
/// A whole own tag class; or, for the id of a built-in class, what is laid over it: price, certificate, applicationMinutes and
/// notes. The construction of a built-in class may be repeated but not changed.
/// </summary>
public sealed record TagClassRequest
{
    /// <summary>Texts are stored in a database whose texts cannot hold U+0000.</summary>
    internal const string Storable = "[^\\x00]*";

    /// <summary>Id of the class, if sent the same as in the path.</summary>
    [MaxLength(60)]
    public string? Id { get; init; }

    /// <summary>Plain name for people.</summary>
    [MinLength(1), MaxLength(120), RegularExpression(Storable)]
    public string? Name { get; init; }

    /// <summary>One sentence: what it is and where it belongs.</summary>
    [MaxLength(1000), RegularExpression(Storable)]
    public string? Description { get; init; }

    /// <summary>Classes of one construction in several sizes share a family; if absent, the class is a family of its own.</summary>
    [MaxLength(60), RegularExpression(Storable)]
    public string? Family { get; init; }

    /// <summary>Air interface.</summary>
    public TagTechnology? Technology { get; init; }

    /// <summary>Outer dimensions.</summary>
    public TagSize? Size { get; init; }

    /// <summary>Electrical figures on the reference surface.</summary>
    public TagAntenna? Antenna { get; init; }

    /// <summary>What the construction bears.</summary>
    public TagLimits? Limits { get; init; }

    /// <summary>Ids of /v1/attachment-methods that this construction allows.</summary>
    [MaxLength(40)]
    public IReadOnlyList<string>? AttachmentMethods { get; init; }

    /// <summary>Chip memory.</summary>
    public TagMemory? Memory { get; init; }

    /// <summary>Weibull life prior in benign indoor surroundings.</summary>
    public LifePrior? Life { get; init; }

    /// <summary>Ids of the cautions that always go with it.</summary>
    [MaxLength(20)]
    public IReadOnlyList<string>? Cautions { get; init; }

    /// <summary>Where the figures come from: data sheet, own measurement, estimate.</summary>
    [MaxLength(500), RegularExpression(Storable)]
    public string? Source { get; init; }

    /// <summary>Your own price or quote.</summary>
    public OwnPriceRequest? Price { get; init; }

    /// <summary>Certificate for explosive atmospheres of the article you buy under this class.</summary>
    public HazardousAreaCertificate? Certificate { get; init; }

    /// <summary>Minutes to handle and place one tag, without the fixing's own minutes.</summary>
    [Range(0.01, 600)]
    public double? ApplicationMinutes { get; init; }

    /// <summary>Your own remarks; no calculation reads them.</summary>
    [MaxLength(2000), RegularExpression(Storable)]
    public string? Notes { get; init; }
}

/// <summary>Your own price for one tag. A quote counts through its last day; then a built-in class has its planning band again.</summary>
public sealed record OwnPriceRequest
{
    /// <summary>Lowest price to be expected, in the currency; the usual one if absent.</summary>
    [Range(0.0001, 1_000_000)]
    public double? Low { get; init; }

    /// <summary>Usual or quoted price in the currency.</summary>
    [Range(0.0001, 1_000_000)]
    public required double Typical { get; init; }

    /// <summary>Highest price to be expected, in the currency; the usual one if absent.</summary>
    [Range(0.0001, 1_000_000)]
    public double? High { get; init; }

    /// <summary>ISO 4217 code. Amounts are never converted.</summary>
    [RegularExpression("[A-Z]{3}")]
    public required string Currency { get; init; }

    /// <summary>Number of tags bought at once for which the price holds.</summary>
    [Range(1, 1_000_000_000)]
    public required int AtQuantity { get; init; }

    /// <summary>Last day of a quote; absent if it does not end.</summary>
    public DateOnly? ValidUntil { get; init; }
}
