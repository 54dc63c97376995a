namespace TagService.Storage.Bulk;

/// <summary>What writing did to one asset.</summary>
public enum AssetOutcome
{
    /// <summary>It is new.</summary>
    Created,

    /// <summary>Its content is another than before.</summary>
    Changed,

    /// <summary>The mirror had it like that; its row was not touched.</summary>
    Unchanged,
}

/// <summary>One asset written.</summary>
/// <param name="AssetId">Its id.</param>
/// <param name="Outcome">What happened to it.</param>
/// <param name="BroughtBack">It was retired and is in service again.</param>
public readonly record struct AssetWritten(string AssetId, AssetOutcome Outcome, bool BroughtBack);

/// <summary>How many of each.</summary>
/// <param name="Created">New ones.</param>
/// <param name="Changed">Changed ones.</param>
/// <param name="Unchanged">Those the mirror had like that.</param>
public sealed record AssetWriteSummary(long Created, long Changed, long Unchanged)
{
    /// <summary>Nothing yet.</summary>
    public static AssetWriteSummary None { get; } = new(0, 0, 0);

    /// <summary>With one more.</summary>
    public AssetWriteSummary Plus(AssetOutcome outcome) => outcome switch
    {
        AssetOutcome.Created => this with { Created = Created + 1 },
        AssetOutcome.Changed => this with { Changed = Changed + 1 },
        _ => this with { Unchanged = Unchanged + 1 },
    };
}
