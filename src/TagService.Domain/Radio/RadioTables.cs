using TagService.Domain.Reference;

namespace TagService.Domain.Radio;

/// <summary>The reference tables of the radio calculation.</summary>
public static class RadioTables
{
    /// <summary>Regions with their bands and limits.</summary>
    public static ReferenceTable<RadioRegion> Regions { get; } = new("radio-regions.data.json", r => r.Id);

    /// <summary>Kinds of reader with planning defaults.</summary>
    public static ReferenceTable<ReaderKindRow> Readers { get; } = new("reader-kinds.data.json", r => r.Kind.ToString());

    /// <summary>Path models by kind of place.</summary>
    public static ReferenceTable<SiteModel> Sites { get; } = new("site-models.data.json", s => s.Id);

    /// <summary>The region with this id, or the first that speaks for this ISO 3166-1 alpha-2 country; null if none does.</summary>
    public static RadioRegion? RegionOf(string idOrCountry) =>
        Regions.Find(idOrCountry)
        ?? Regions.All.FirstOrDefault(r => r.Countries.Contains(idOrCountry, StringComparer.OrdinalIgnoreCase));
}
