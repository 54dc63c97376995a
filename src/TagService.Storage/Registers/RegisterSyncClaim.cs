using TagService.Storage.Tables;

namespace TagService.Storage.Registers;

/// <summary>A run that a worker has taken.</summary>
public sealed record RegisterSyncClaim
{
    /// <summary>Number of the run.</summary>
    public required long Id { get; init; }

    /// <summary>Random number of this taking; whoever takes the run after us has another.</summary>
    public required Guid Worker { get; init; }

    /// <summary>Name of the source.</summary>
    public required string SourceName { get; init; }

    /// <summary>The source's settings as JSON.</summary>
    public required string Settings { get; init; }

    /// <summary>Where to read on; null: from the start.</summary>
    public string? Position { get; init; }

    /// <summary>Every row is looked at anew, also those that are known.</summary>
    public required bool IsFullPass { get; init; }

    /// <summary>Assets that are gone are retired however many they are.</summary>
    public required bool AcceptsMissing { get; init; }

    /// <summary>Rows read so far.</summary>
    public required long Rows { get; init; }

    /// <summary>Rows refused so far; they are numbered on.</summary>
    public required long Refused { get; init; }

    /// <summary>Failures in a row.</summary>
    public required int Attempts { get; init; }

    /// <summary>What has been noted so far.</summary>
    public required RegisterSyncNotes Notes { get; init; }
}

/// <summary>The run is no longer this worker's: it was taken for dead, or somebody cancelled the run. Nothing of the page was kept.</summary>
public sealed class RegisterSyncLostException(long id) : Exception(FormattableString.Invariant($"Run {id} is no longer this worker's."));
