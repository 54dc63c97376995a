using System.Globalization;
using TagService.Domain.Radio;
using TagService.Domain.TagClasses;
using TagService.Storage.Recommendations;

namespace TagService.Api.Features.TagClasses;

/// <summary>From the wire to overlays, and from classes to the wire.</summary>
internal static class TagClassMapping
{
    /// <summary>An own class; all members it needs are there.</summary>
    public static TagClassOverlay ToOwnClass(this TagClassRequest request, string id) => new()
    {
        Id = id,
        Notes = request.Notes,
        Own = new()
        {
            Id = id,
            Name = request.Name!,
            Description = request.Description ?? request.Name!,
            Family = request.Family ?? id,
            Technology = request.Technology!.Value,
            Size = request.Size!,
            Antenna = request.Antenna!,
            Limits = request.Limits!,
            AttachmentMethods = request.AttachmentMethods!,
            Memory = request.Memory!,
            Certificate = request.Certificate,
            Price = ToBand(request.Price!),
            ApplicationMinutes = request.ApplicationMinutes!.Value,
            Life = request.Life!,
            Cautions = request.Cautions ?? [],
            Source = request.Source ?? "own class, figures as entered by the user",
        },
    };

    /// <summary>What is laid over a built-in class.</summary>
    public static TagClassOverlay ToOverlay(this TagClassRequest request, string id) => new()
    {
        Id = id,
        Price = request.Price is { } price ? ToBand(price) : null,
        Certificate = request.Certificate,
        ApplicationMinutes = request.ApplicationMinutes,
        Notes = request.Notes,
    };

    /// <summary>The class with this id as the answer shows it, from what the process knows; null when there is none.</summary>
    public static TagClassResponse? Find(this CatalogueSnapshot snapshot, string id, DateOnly day) =>
        snapshot.Find(id) is { } known ? Of(known.Id, snapshot.Overlays.GetValueOrDefault(known.Id), day) : null;

    /// <summary>The class with this id, from the built-in catalogue and what is stored for it; null when there is none.</summary>
    public static TagClassResponse? Of(string id, StoredOverlay? stored, DateOnly day)
    {
        var overlay = stored?.Overlay;
        var builtIn = TagClassCatalogue.BuiltIn.Find(id);
        var tagClass = overlay?.Own ?? (builtIn is null ? null : overlay?.Over(builtIn, day) ?? builtIn);
        if (tagClass is null)
            return null;
        var origin = overlay is null ? TagClassOrigin.BuiltIn : overlay.Own is null ? TagClassOrigin.Overlaid : TagClassOrigin.Own;
        return new(
            tagClass.Id, origin, tagClass.Name, tagClass.Description, tagClass.Family, tagClass.Technology, tagClass.Size, tagClass.Antenna, tagClass.Limits,
            tagClass.AttachmentMethods, tagClass.Memory, tagClass.Certificate, tagClass.Price, tagClass.ApplicationMinutes, tagClass.Life, tagClass.Cautions,
            tagClass.Source, overlay?.Notes, stored?.UpdatedAt, [.. Warnings(tagClass, overlay, day)]);
    }

    private static IEnumerable<TagClassWarningResponse> Warnings(TagClass tagClass, TagClassOverlay? overlay, DateOnly day)
    {
        if (overlay is null)
            yield break;
        foreach (var finding in overlay.Own is null ? [] : SizeBoundCheck.Breaking([tagClass]))
            yield return new("size-bound", "/antenna/referenceGainDbi", finding.Sentence);
        if (tagClass.Certificate is { } certificate)
        {
            yield return new(
                "certificate-not-checked", "/certificate",
                "The certificate is taken as entered. An unsuitable tag can ignite an explosive atmosphere: compare certificate, marking and zone before fitting; the site's competent person decides.");
            if (certificate.ValidUntil < day)
                yield return new("certificate-ended", "/certificate/validUntil", $"The certificate ended on {Text(certificate.ValidUntil)} and no longer counts.");
        }

        if ((overlay.Own?.Price ?? overlay.Price) is { } price && TagClassOverlay.HasEnded(price, day))
        {
            yield return new(
                "quote-ended", "/price/validUntil",
                overlay.Own is null
                    ? $"The quote ended on {Text(price.ValidUntil)}; the built-in planning band counts again."
                    : $"The quote ended on {Text(price.ValidUntil)}; it stays in use because the class has no other price.");
        }
    }

    private static PriceBand ToBand(OwnPriceRequest price) => new(
        price.Low ?? Math.Min(price.Typical, price.High ?? price.Typical), price.Typical, price.High ?? Math.Max(price.Typical, price.Low ?? price.Typical),
        price.Currency, price.AtQuantity, price.ValidUntil);

    private static string Text(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
}
