using TagService.Domain.Recommendations;

namespace TagService.Storage.Claims;

/// <summary>One asset whose recommendation is to be computed.</summary>
/// <param name="AssetId">Its key.</param>
/// <param name="Record">Its record.</param>
/// <param name="RecordHash">Hash of that record, to be stored with the answer.</param>
/// <param name="InputKey">What the engine reads of it, to be stored with the answer.</param>
public sealed record ClaimedAsset(string AssetId, AssetRecord Record, string RecordHash, string InputKey);
