namespace TagService.Api.Features.Attachments;

/// <summary>Answer to one line of a batch, or the summary that comes last. A line that was not taken is answered by problem details with its number.</summary>
public sealed record AttachmentLineResponse
{
    /// <summary>Number of the line, from 1; in CSV the header is line 1.</summary>
    public long? Line { get; init; }

    /// <summary>What became of it.</summary>
    public AttachmentLineResult? Result { get; init; }

    /// <summary>The attachment it is recorded in.</summary>
    public Guid? AttachmentId { get; init; }

    /// <summary>The earlier attachment it ended.</summary>
    public Guid? PreviousId { get; init; }

    /// <summary>What the check of a new attachment is worth; absent without one.</summary>
    public CheckRangeResponse? CheckRange { get; init; }

    /// <summary>In the last line only.</summary>
    public AttachmentBatchSummary? Summary { get; init; }
}

/// <summary>Counts of a batch. An answer without it was broken off: send the whole batch again, what was taken is known.</summary>
/// <param name="Lines">Lines read, blank ones and a CSV header left out.</param>
/// <param name="Started">New attachments.</param>
/// <param name="Ended">Attachments that were open and ended.</param>
/// <param name="Known">Lines that were recorded already.</param>
/// <param name="Refused">Lines that were not taken.</param>
public sealed record AttachmentBatchSummary(long Lines, long Started, long Ended, long Known, long Refused);

/// <summary>What became of a line.</summary>
public enum AttachmentLineResult
{
    /// <summary>A new attachment.</summary>
    Started,

    /// <summary>An attachment that was open has ended.</summary>
    Ended,

    /// <summary>It was recorded already; nothing changed.</summary>
    Known,
}
