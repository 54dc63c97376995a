namespace TagService.Storage.Tables;

/// <summary>A row of a register that was not taken.</summary>
public sealed class RejectedRowRow
{
    /// <summary>The run.</summary>
    public required long SyncId { get; init; }

    /// <summary>Counts the run's refused rows, from 1.</summary>
    public required long Number { get; init; }

    /// <summary>Where it stood, for a person: "page 3, item 17" or "pumps.csv, line 88".</summary>
    public required string Place { get; init; }

    /// <summary>The asset's key, where it could be read.</summary>
    public string? AssetId { get; init; }

    /// <summary>Why, in one sentence.</summary>
    public required string Reason { get; init; }

    /// <summary>Each value that was not understood: a list of <see cref="ValueNote"/> as JSON; empty when the row as such is the problem.</summary>
    public required string Problems { get; init; }

    /// <summary>The row as the source wrote it, at most 4,000 characters.</summary>
    public required string OriginalText { get; init; }
}
