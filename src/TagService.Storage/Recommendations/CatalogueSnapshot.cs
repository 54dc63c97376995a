using System.Collections.Frozen;
using TagService.Domain.Radio;
using TagService.Domain.Recommendations;
using TagService.Domain.TagClasses;

namespace TagService.Storage.Recommendations;

/// <summary>The catalogue with its overlays and measured ranges as this process last saw them.</summary>
/// <param name="Context">What recommendations rest on.</param>
/// <param name="Overlays">The overlays in use, by id of the class.</param>
/// <param name="Calibrations">Posteriors in use, by class and material.</param>
public sealed record CatalogueSnapshot(
    RecommendationContext Context, IReadOnlyDictionary<string, StoredOverlay> Overlays, IReadOnlyList<PairCalibration> Calibrations)
{
    /// <summary>The day for which quotes were looked at.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The class with this id, without regard to case, or null.</summary>
    public TagClass? Find(string id) => _byId.GetValueOrDefault(id);

    private readonly FrozenDictionary<string, TagClass> _byId =
        Context.Classes.ToFrozenDictionary(c => c.Id, StringComparer.OrdinalIgnoreCase);
}

/// <summary>An overlay and when it was last written.</summary>
/// <param name="Overlay">The overlay.</param>
/// <param name="UpdatedAt">When it was written.</param>
public sealed record StoredOverlay(TagClassOverlay Overlay, DateTimeOffset UpdatedAt);
