namespace TagService.Domain.Attachments;

/// <summary>One tag on one asset from a moment until its end.</summary>
public sealed record Attachment
{
    /// <summary>Its id, rising with the time of recording.</summary>
    public required Guid Id { get; init; }

    /// <summary>The tag: canonical text of its decoded identity.</summary>
    public required string Tag { get; init; }

    /// <summary>The asset.</summary>
    public required string AssetId { get; init; }

    /// <summary>Tag class; null: not known.</summary>
    public string? TagClassId { get; init; }

    /// <summary>Way of fixing, an id of <see cref="Suitability.AttachmentMethods"/>; null: not known.</summary>
    public string? MethodId { get; init; }

    /// <summary>When it began.</summary>
    public Moment Start { get; init; }

    /// <summary>That it has ended; null: nobody knows of an end.</summary>
    public AttachmentEnd? End { get; init; }

    /// <summary>When it was recorded, which is when it was known to exist.</summary>
    public required DateTimeOffset RecordedAt { get; init; }

    /// <summary>
    /// Found in place when recorded, instead of recorded because it was fitted: the like of it that failed earlier were never
    /// recorded, so its life counts from the recording on (late entry).
    /// </summary>
    public bool TakenOver { get; init; }

    /// <summary>Labour of fitting in minutes.</summary>
    public double? LabourMinutes { get; init; }

    /// <summary>Batch the tag came from.</summary>
    public string? TagBatchId { get; init; }

    /// <summary>Who fitted it; opaque.</summary>
    public string? FitterId { get; init; }

    /// <summary>What was read when it was fitted.</summary>
    public FittingCheck Check { get; init; } = new();

    /// <summary>Address or key of a photograph.</summary>
    public string? PhotoReference { get; init; }

    /// <summary>TID read when it was fitted, upper-case hexadecimal.</summary>
    public string? TidHex { get; init; }

    /// <summary>Remark.</summary>
    public string? Note { get; init; }

    /// <summary>Key of the batch line that recorded it; null: no batch did.</summary>
    public Guid? StartedByLine { get; init; }

    /// <summary>Key of the batch line that ended it; null: no batch did.</summary>
    public Guid? EndedByLine { get; init; }

    /// <summary>Recorded by mistake; counts nowhere.</summary>
    public bool IsVoid => End?.Kind == EndKind.RecordingMistake;

    /// <summary>Nobody knows of an end.</summary>
    public bool IsOpen => End is null;
}
