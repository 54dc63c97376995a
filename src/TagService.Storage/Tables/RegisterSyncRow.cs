namespace TagService.Storage.Tables;

/// <summary>One run over a register source, from the request to its end.</summary>
public sealed class RegisterSyncRow
{
    /// <summary>Number of the run.</summary>
    public long Id { get; private set; }

    /// <summary>Name of the source; kept when the source is deleted.</summary>
    public required string SourceName { get; init; }

    /// <summary>Where it is.</summary>
    public required RegisterSyncState State { get; set; }

    /// <summary>Who asked for it: an actor, or the schedule.</summary>
    public required string RequestedBy { get; init; }

    /// <summary>When it was asked for.</summary>
    public required DateTimeOffset RequestedAt { get; init; }

    /// <summary>Read everything, also where the source can tell what changed.</summary>
    public required bool IsFullPass { get; set; }

    /// <summary>Assets that are gone are retired however many they are.</summary>
    public required bool AcceptsMissing { get; init; }

    /// <summary>When a worker first took it.</summary>
    public DateTimeOffset? StartedAt { get; set; }

    /// <summary>When it ended.</summary>
    public DateTimeOffset? EndedAt { get; set; }

    /// <summary>Not before; null: at once.</summary>
    public DateTimeOffset? TryAgainAt { get; set; }

    /// <summary>Failures in a row without a page in between.</summary>
    public int Attempts { get; set; }

    /// <summary>The worker that has it; a random number, so that one that was taken for dead notices.</summary>
    public Guid? ClaimedBy { get; set; }

    /// <summary>After this the worker counts as dead.</summary>
    public DateTimeOffset? ClaimedUntil { get; set; }

    /// <summary>Version of the settings that its counts and position belong to.</summary>
    public string? SettingsHash { get; set; }

    /// <summary>How far the source has been read; opaque, not shown.</summary>
    public string? Position { get; set; }

    /// <summary>Rows read, unreadable ones not counted.</summary>
    public long Rows { get; set; }

    /// <summary>Rows that the source announced.</summary>
    public long? Announced { get; set; }

    /// <summary>New assets.</summary>
    public long Created { get; set; }

    /// <summary>Assets with another content than before.</summary>
    public long Changed { get; set; }

    /// <summary>Rows that changed nothing.</summary>
    public long Unchanged { get; set; }

    /// <summary>Rows refused, unreadable ones included; each is kept.</summary>
    public long Refused { get; set; }

    /// <summary>Rows left out because the same row came before in the run.</summary>
    public long Repeated { get; set; }

    /// <summary>Assets that were retired and are in service again.</summary>
    public long BroughtBack { get; set; }

    /// <summary>Assets in service that the source listed before and lists no more; null until a complete list was read.</summary>
    public long? Missing { get; set; }

    /// <summary>Missing assets that were retired.</summary>
    public long Retired { get; set; }

    /// <summary>Why it waits, is held or failed, as a stable word; null otherwise.</summary>
    public string? ReasonCode { get; set; }

    /// <summary>The same for a person.</summary>
    public string? ReasonDetail { get; set; }

    /// <summary>What whoever looks after the source should know: <see cref="RegisterSyncNotes"/> as JSON.</summary>
    public string? Notes { get; set; }
}

/// <summary>Where a run is.</summary>
public enum RegisterSyncState
{
    /// <summary>No worker has it; <see cref="RegisterSyncRow.TryAgainAt"/> may say when it goes on.</summary>
    Waiting,

    /// <summary>A worker has it.</summary>
    Running,

    /// <summary>The source was read to its end and everything is written.</summary>
    Done,

    /// <summary>Read and written, but so many assets were missing that a person has to say whether they are gone.</summary>
    Held,

    /// <summary>It could not go on; what was read before is written.</summary>
    Failed,

    /// <summary>Somebody ended it; what was read before is written.</summary>
    Cancelled,
}
