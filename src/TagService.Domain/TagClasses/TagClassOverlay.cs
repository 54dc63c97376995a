namespace TagService.Domain.TagClasses;

/// <summary>
/// What a user lays over the catalogue under one id: a whole class of their own, or price, certificate and application time
/// of a built-in class, whose construction stays as it is.
/// </summary>
public sealed record TagClassOverlay
{
    /// <summary>Id of the own class, or of the built-in one.</summary>
    public required string Id { get; init; }

    /// <summary>The whole own class; null when a built-in one is overlaid.</summary>
    public TagClass? Own { get; init; }

    /// <summary>Price that replaces the built-in band until the quote's last day.</summary>
    public PriceBand? Price { get; init; }

    /// <summary>Certificate for explosive atmospheres on record for the article that is bought under this class.</summary>
    public HazardousAreaCertificate? Certificate { get; init; }

    /// <summary>Minutes to handle and place one tag, replacing the built-in planning value.</summary>
    public double? ApplicationMinutes { get; init; }

    /// <summary>The user's own remarks; no calculation reads them.</summary>
    public string? Notes { get; init; }

    /// <summary>
    /// The catalogue with the overlays: built-in classes in their order, each with what is laid over it, then the own classes by
    /// id. An own class takes the place of a built-in one of the same id; overlays of classes that do not exist are left out.
    /// </summary>
    /// <param name="builtIn">Built-in classes.</param>
    /// <param name="overlays">Overlays, at most one for an id.</param>
    /// <param name="asOf">Day; a quote that ended before it gives way to the built-in band.</param>
    public static IReadOnlyList<TagClass> Apply(
        IReadOnlyList<TagClass> builtIn, IReadOnlyCollection<TagClassOverlay> overlays, DateOnly asOf)
    {
        ArgumentNullException.ThrowIfNull(builtIn);
        ArgumentNullException.ThrowIfNull(overlays);
        var byId = overlays.ToDictionary(o => o.Id, StringComparer.Ordinal);
        var known = builtIn.Select(c => c.Id).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. builtIn.Select(c => byId.TryGetValue(c.Id, out var overlay) ? overlay.Over(c, asOf) : c),
            .. overlays.Where(o => o.Own is not null && !known.Contains(o.Id)).OrderBy(o => o.Id, StringComparer.Ordinal).Select(o => o.Own!),
        ];
    }

    /// <summary>This overlay on its built-in class.</summary>
    /// <param name="builtIn">The class of the same id.</param>
    /// <param name="asOf">Day for which a quote must be in force.</param>
    public TagClass Over(TagClass builtIn, DateOnly asOf)
    {
        ArgumentNullException.ThrowIfNull(builtIn);
        if (Own is not null)
            return Own;
        var price = Price is { } own && !HasEnded(own, asOf) ? own : null;
        string[] laidOver =
        [
            .. price is null ? Array.Empty<string>() : ["own price"],
            .. Certificate is null ? Array.Empty<string>() : ["certificate as recorded by the user"],
            .. ApplicationMinutes is null ? Array.Empty<string>() : ["own application minutes"],
        ];
        return builtIn with
        {
            Price = price ?? builtIn.Price,
            Certificate = Certificate ?? builtIn.Certificate,
            ApplicationMinutes = ApplicationMinutes ?? builtIn.ApplicationMinutes,
            Source = laidOver.Length == 0 ? builtIn.Source : $"{builtIn.Source}; {string.Join(", ", laidOver)}",
        };
    }

    /// <summary>Has a quote's last day passed?</summary>
    /// <param name="price">The price.</param>
    /// <param name="asOf">The day.</param>
    public static bool HasEnded(PriceBand price, DateOnly asOf)
    {
        ArgumentNullException.ThrowIfNull(price);
        return price.ValidUntil < asOf;
    }
}
