using TagService.Domain.TagClasses;

namespace TagService.Api.Features.TagClasses;

/// <summary>One tag class as recommendations use it.</summary>
/// <param name="Id">Stable id.</param>
/// <param name="Origin">Built-in, overlaid or own.</param>
/// <param name="Name">Plain name.</param>
/// <param name="Description">What it is and where it belongs.</param>
/// <param name="Family">Classes of one construction in several sizes share a family.</param>
/// <param name="Technology">Air interface.</param>
/// <param name="Size">Outer dimensions.</param>
/// <param name="Antenna">Electrical figures on the reference surface.</param>
/// <param name="Limits">What the construction bears.</param>
/// <param name="AttachmentMethods">Ids of /v1/attachment-methods that it allows.</param>
/// <param name="Memory">Chip memory.</param>
/// <param name="Certificate">Certificate for explosive atmospheres on record; built-in classes have none.</param>
/// <param name="Price">Price of one tag.</param>
/// <param name="ApplicationMinutes">Minutes to handle and place one tag, without the fixing's own minutes.</param>
/// <param name="Life">Weibull life prior in benign indoor surroundings.</param>
/// <param name="Cautions">Ids of the cautions that always go with it.</param>
/// <param name="Source">Where the figures come from.</param>
/// <param name="Notes">Your own remarks.</param>
/// <param name="UpdatedAt">When your own figures were last written; absent for a class as built in.</param>
/// <param name="Warnings">What to look at twice; nothing here is refused.</param>
public sealed record TagClassResponse(
    string Id,
    TagClassOrigin Origin,
    string Name,
    string Description,
    string Family,
    TagTechnology Technology,
    TagSize Size,
    TagAntenna Antenna,
    TagLimits Limits,
    IReadOnlyList<string> AttachmentMethods,
    TagMemory Memory,
    HazardousAreaCertificate? Certificate,
    PriceBand Price,
    double ApplicationMinutes,
    LifePrior Life,
    IReadOnlyList<string> Cautions,
    string Source,
    string? Notes,
    DateTimeOffset? UpdatedAt,
    IReadOnlyList<TagClassWarningResponse> Warnings);

/// <summary>Where a tag class comes from.</summary>
public enum TagClassOrigin
{
    /// <summary>As it comes with the service: a generic construction with planning values.</summary>
    BuiltIn,

    /// <summary>Built-in construction with your own price, certificate, application minutes or notes.</summary>
    Overlaid,

    /// <summary>Your own class.</summary>
    Own,
}

/// <summary>Something to look at twice.</summary>
/// <param name="Code">Stable code: size-bound, certificate-not-checked, certificate-ended, quote-ended.</param>
/// <param name="Pointer">JSON pointer of the member it is about.</param>
/// <param name="Text">In words.</param>
public sealed record TagClassWarningResponse(string Code, string Pointer, string Text);

/// <summary>The catalogue: built-in classes first, then own classes by id.</summary>
/// <param name="Items">The classes.</param>
/// <param name="CatalogueVersion">Changes whenever a figure of any class does; recommendations name it.</param>
public sealed record TagClassListResponse(IReadOnlyList<TagClassResponse> Items, string CatalogueVersion);
