using TagService.Storage.Tables;

namespace TagService.Storage.Fitting;

/// <summary>Identities reserved for assets, and why some have none.</summary>
/// <param name="ByAsset">By asset; an asset that got none is missing.</param>
/// <param name="Refusal">Why assets are missing, in words and with what to do; null when none is.</param>
public sealed record ReservationOutcome(IReadOnlyDictionary<string, ReservedIdentityRow> ByAsset, string? Refusal);
