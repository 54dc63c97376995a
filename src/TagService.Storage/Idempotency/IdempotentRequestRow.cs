namespace TagService.Storage.Idempotency;

/// <summary>A request that named an Idempotency-Key, with what it was answered; written in the transaction of its effects.</summary>
public sealed class IdempotentRequestRow
{
    /// <summary>The operation's id in the OpenAPI document: the same key may be used for another operation.</summary>
    public required string Operation { get; init; }

    /// <summary>The caller's key.</summary>
    public required string Key { get; init; }

    /// <summary>SHA-256 of what was sent under it.</summary>
    public required string ContentHash { get; init; }

    /// <summary>Status it was answered with.</summary>
    public required int Status { get; init; }

    /// <summary>Body it was answered with, byte for byte; text and not jsonb, which would reorder it.</summary>
    public required string Body { get; init; }

    /// <summary>Location header of the answer.</summary>
    public string? Location { get; init; }

    /// <summary>When it was answered.</summary>
    public required DateTimeOffset RecordedAt { get; init; }
}
