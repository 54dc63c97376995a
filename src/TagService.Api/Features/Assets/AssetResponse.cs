using TagService.Api.Features.Recommendations;
using TagService.Domain.Recommendations;

namespace TagService.Api.Features.Assets;

/// <summary>One asset of the register's mirror.</summary>
/// <param name="AssetId">The register's key.</param>
/// <param name="LocationName">Where the register says it is, in the register's words.</param>
/// <param name="UpdatedAt">When its content last changed.</param>
/// <param name="Record">What is known of it, in the form of a request to /v1/recommendations.</param>
/// <param name="Recommendation">The stored recommendation; absent until the worker has been there.</param>
public sealed record AssetResponse(
    string AssetId, string? LocationName, DateTimeOffset UpdatedAt, AssetRecord Record, StoredRecommendationResponse? Recommendation)
{
    /// <summary>The tag the register knows for the asset, as the register writes it.</summary>
    public string? RegisterTag { get; init; }

    /// <summary>Where it last came from: the name of a register source, push (sent by the asset system), attachments (known only by its tags), demo (invented), or unknown.</summary>
    public required string Source { get; init; }

    /// <summary>That it is out of service; absent: in service.</summary>
    public RetirementResponse? Retired { get; init; }

    /// <summary>When the mirror first had it.</summary>
    public required DateTimeOffset FirstSeenAt { get; init; }

    /// <summary>In answers to changes: what else to know about what was sent.</summary>
    public IReadOnlyList<NoticeResponse>? Notices { get; init; }
}

/// <summary>An asset out of service.</summary>
/// <param name="At">Since when.</param>
/// <param name="Reason">Why, in the register's words.</param>
public sealed record RetirementResponse(DateTimeOffset At, string? Reason);

/// <summary>What the worker stored for an asset. POST its record to /v1/recommendations for the working behind it.</summary>
/// <param name="TagClassId">Id in /v1/tag-classes; absent when no class suits.</param>
/// <param name="AttachmentMethodId">Id in /v1/attachment-methods.</param>
/// <param name="ExpectedRange">Expected range over such assets, one look.</param>
/// <param name="LifetimeCost">Present value over the asset's remaining life.</param>
/// <param name="NoneBecause">Why no tag class suits; absent when one does.</param>
/// <param name="IsCurrent">Does it rest on what recommendations read of the record as it is now? If not, the worker will come by.</param>
/// <param name="EngineVersion">Version of rules and formulas.</param>
/// <param name="CatalogueVersion">Version of the tag-class catalogue, followed by 8 digits for ended certificates where there are any.</param>
/// <param name="ComputedAt">When it was computed.</param>
public sealed record StoredRecommendationResponse(
    string? TagClassId,
    string? AttachmentMethodId,
    ExpectedRangeResponse? ExpectedRange,
    StoredLifetimeCostResponse? LifetimeCost,
    string? NoneBecause,
    bool IsCurrent,
    string EngineVersion,
    string CatalogueVersion,
    DateTimeOffset ComputedAt)
{
    /// <summary>Id in /v1/materials of the material at the surface, given or assumed.</summary>
    public string? MaterialId { get; init; }

    /// <summary>Version of the ranges measured on that material, 8 hexadecimal digits; absent where none were.</summary>
    public string? MeasuredVersion { get; init; }
}

/// <summary>Present value of the lifetime cost.</summary>
/// <param name="PresentValue">Amount in the currency.</param>
/// <param name="Currency">ISO 4217 code.</param>
public sealed record StoredLifetimeCostResponse(decimal PresentValue, string Currency);
