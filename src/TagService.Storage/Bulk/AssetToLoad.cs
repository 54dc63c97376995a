using TagService.Domain.Recommendations;

namespace TagService.Storage.Bulk;

/// <summary>One asset for the bulk writer.</summary>
/// <param name="Record">Its record, with the asset id set.</param>
/// <param name="LocationName">Where the register says it is.</param>
public sealed record AssetToLoad(AssetRecord Record, string? LocationName);
