namespace TagService.Storage.Schema;

/// <summary>How the database stands to this program.</summary>
public enum DatabaseCondition
{
    /// <summary>No connection, or no answer in time.</summary>
    Unreachable,

    /// <summary>The server is older than the oldest supported major.</summary>
    UnsupportedServer,

    /// <summary>Reachable, without our tables.</summary>
    Empty,

    /// <summary>Migrations of this program have not run yet.</summary>
    Older,

    /// <summary>Everything of this program has run, and more that it does not know.</summary>
    Newer,

    /// <summary>Exactly what this program expects.</summary>
    Current,
}

/// <summary>Result of one look at the database.</summary>
/// <param name="Condition">How it stands.</param>
/// <param name="Explanation">One sentence for people, without credentials.</param>
public sealed record DatabaseState(DatabaseCondition Condition, string Explanation)
{
    /// <summary>
    /// Can this program work on it? A newer database counts: migrations are safe with the previous version still running,
    /// and calling that unusable would take every old replica down in the middle of an upgrade.
    /// </summary>
    public bool IsUsable => Condition is DatabaseCondition.Current or DatabaseCondition.Newer;
}
