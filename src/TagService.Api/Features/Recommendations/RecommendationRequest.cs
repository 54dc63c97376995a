using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using System.Text.Json.Serialization;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Recommendations;

/// <summary>
/// One asset record. Every part is optional; what is missing is assumed and listed. A register's own fields are welcome
/// at the top level: they count as attributes and may help to recognise the asset.
/// </summary>
public sealed record RecommendationRequest
{
    /// <summary>The register's key of the asset.</summary>
    [MaxLength(200)]
    public string? AssetId { get; init; }

    /// <summary>The register's category in its own words, any language.</summary>
    [MaxLength(500)]
    public string? Category { get; init; }

    /// <summary>Free text: type, maker's designation, remarks.</summary>
    [MaxLength(4000)]
    public string? Description { get; init; }

    /// <summary>The surface the tag goes on.</summary>
    public SurfaceRecord? Surface { get; init; }

    /// <summary>The room there is for a tag.</summary>
    public MountingRecord? Mounting { get; init; }

    /// <summary>What tag and fixing must endure.</summary>
    public EnvironmentRecord? Environment { get; init; }

    /// <summary>What is inside the asset, in the register's words (water, oil, gas, empty, ...).</summary>
    [MaxLength(500)]
    public string? Contents { get; init; }

    /// <summary>How the tag is to be read.</summary>
    public ReadingRecord? Reading { get; init; }

    /// <summary>Service life, stock-takes and labour.</summary>
    public ServiceRecord? Service { get; init; }

    /// <summary>What is written to the tag.</summary>
    public IdentityRecord? Identity { get; init; }

    /// <summary>The register's own further fields; nested values are flattened to text.</summary>
    [MaxLength(500)]
    public IReadOnlyDictionary<string, JsonElement>? Attributes { get; init; }

    /// <summary>The register's own fields at the top level; they count as attributes.</summary>
    [JsonExtensionData]
    public Dictionary<string, JsonElement>? RegisterFields { get; init; }
}
