using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using System.Text.Json.Serialization;
using TagService.Api.Features.Recommendations;
using TagService.Domain.Recommendations;
using TagService.Storage.Bulk;

namespace TagService.Api.Features.Assets;

/// <summary>
/// One asset as its register has it: the record as POST /v1/recommendations takes it, and what the register says beside it. Every
/// part is optional. A register's own fields are welcome at the top level: they are kept as attributes.
/// </summary>
public sealed record AssetRequest
{
    /// <summary>The register's key of the asset; may be left out where the address has it.</summary>
    [MaxLength(AssetContent.MaxAssetIdLength)]
    public string? AssetId { get; init; }

    /// <summary>The register's category in its own words, any language.</summary>
    [MaxLength(AssetContent.MaxTextLength)]
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

    /// <summary>Where the register says the asset is, in the register's words.</summary>
    [MaxLength(AssetContent.MaxTextLength)]
    public string? LocationName { get; init; }

    /// <summary>The tag the register knows for the asset, as the register writes it.</summary>
    [MaxLength(AssetContent.MaxTextLength)]
    public string? RegisterTag { get; init; }

    /// <summary>That the asset is out of service; absent: in service.</summary>
    public RetirementRequest? Retired { get; init; }

    /// <summary>The register's own further fields; nested values are flattened to text.</summary>
    [MaxLength(500)]
    public IReadOnlyDictionary<string, JsonElement>? Attributes { get; init; }

    /// <summary>The register's own fields at the top level; they count as attributes.</summary>
    [JsonExtensionData]
    public Dictionary<string, JsonElement>? RegisterFields { get; init; }

    /// <summary>The part that recommendations are made from.</summary>
    internal RecommendationRequest ToRecommendationRequest(string? assetId) => new()
    {
        AssetId = assetId, Category = Category, Description = Description, Surface = Surface, Mounting = Mounting, Environment = Environment, Contents = Contents,
        Reading = Reading, Service = Service, Identity = Identity, Attributes = Attributes, RegisterFields = RegisterFields,
    };
}

/// <summary>An asset out of service. Its history and attachments are kept.</summary>
public sealed record RetirementRequest
{
    /// <summary>Since when; absent: since the service first hears of it. Not before 1900 and not in the future.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>Why, in the register's words.</summary>
    [MaxLength(AssetContent.MaxTextLength)]
    public string? Reason { get; init; }
}
