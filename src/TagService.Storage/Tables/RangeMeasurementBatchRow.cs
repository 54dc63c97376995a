namespace TagService.Storage.Tables;

/// <summary>A request of measured ranges that named an Idempotency-Key; written with its measurements in one transaction.</summary>
public sealed class RangeMeasurementBatchRow
{
    /// <summary>The caller's key.</summary>
    public required string IdempotencyKey { get; init; }

    /// <summary>SHA-256 of what was sent under it.</summary>
    public required string ContentHash { get; init; }

    /// <summary>Measurements stored.</summary>
    public required int Measurements { get; init; }

    /// <summary>When it was recorded.</summary>
    public required DateTimeOffset RecordedAt { get; init; }
}
