namespace TagService.Storage.Changes;

/// <summary>What a change did.</summary>
public enum ChangeAction
{
    /// <summary>The item is new.</summary>
    Created,

    /// <summary>The item has other values than before.</summary>
    Changed,

    /// <summary>The item is gone.</summary>
    Deleted,
}

/// <summary>One change of one item; rows are added, never changed.</summary>
public sealed class ChangeRow
{
    /// <summary>Rising key; gaps are possible.</summary>
    public long Id { get; private set; }

    /// <summary>When it was written.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Who did it.</summary>
    public required string Actor { get; init; }

    /// <summary>Trace id of the request or job, 32 hex digits; null without one.</summary>
    public string? TraceId { get; init; }

    /// <summary>Kind of the item.</summary>
    public required string Kind { get; init; }

    /// <summary>Id of the item.</summary>
    public required string Key { get; init; }

    /// <summary>What happened to it.</summary>
    public required ChangeAction Action { get; init; }

    /// <summary>The item before, as JSON; null when it was created.</summary>
    public string? Before { get; init; }

    /// <summary>The item after, as JSON; null when it was deleted.</summary>
    public string? After { get; init; }
}
