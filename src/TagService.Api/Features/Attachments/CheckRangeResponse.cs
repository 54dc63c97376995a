using TagService.Api.Features.RangeMeasurements;

namespace TagService.Api.Features.Attachments;

/// <summary>What the check recorded with an attachment is worth: whether it counts as a measured range of its class on the asset's material.</summary>
/// <param name="Counts">True when it counts, once, for as long as the attachment says so. Ranges expected of others follow within seconds.</param>
/// <param name="TagClassId">Where it counts: id in /v1/tag-classes.</param>
/// <param name="MaterialId">Where it counts: id in /v1/materials.</param>
/// <param name="Kind">Where it counts: what the distance means.</param>
/// <param name="Field">Where it does not: the field to set or to look at; surface.material is the asset's.</param>
/// <param name="Because">Where it does not: why.</param>
/// <param name="Accepted">Where it does not: what would make it count.</param>
public sealed record CheckRangeResponse(
    bool Counts, string? TagClassId, string? MaterialId, RangeFinding? Kind, string? Field, string? Because, string? Accepted);
