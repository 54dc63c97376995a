namespace TagService.Storage.Tables;

/// <summary>What a run tells of its source beside the counts.</summary>
public sealed record RegisterSyncNotes
{
    /// <summary>Nothing yet.</summary>
    public static RegisterSyncNotes None { get; } = new();

    /// <summary>
    /// The source was read to its end, and what it gave is a complete list, so that an asset that is not on it has gone; null: not read to
    /// the end yet.
    /// </summary>
    public bool? IsCompleteList { get; init; }

    /// <summary>About the source as a whole, each once.</summary>
    public IReadOnlyList<SourceNote> Notices { get; init; } = [];

    /// <summary>Why the list may not be complete; then nothing is retired.</summary>
    public IReadOnlyList<string> Doubts { get; init; } = [];

    /// <summary>Values that were not understood or not recognised, the most frequent ones first.</summary>
    public IReadOnlyList<ValueNote> Values { get; init; } = [];

    /// <summary>Further such values, not listed because there are too many different ones.</summary>
    public long ValuesNotListed { get; init; }
}

/// <summary>Something about the source.</summary>
/// <param name="Code">Stable word.</param>
/// <param name="Detail">A sentence.</param>
public sealed record SourceNote(string Code, string Detail);

/// <summary>A value that a mapping did not take as it is.</summary>
/// <param name="Kind">What came of it: refuses, left-out, not-recognised or cut.</param>
/// <param name="Field">Pointer of our field.</param>
/// <param name="Source">Column or pointer it came from.</param>
/// <param name="Value">The value, cut to 80 characters.</param>
/// <param name="Detail">What is the matter.</param>
/// <param name="Accepted">What would be accepted.</param>
/// <param name="Count">Rows that have it.</param>
public sealed record ValueNote(string Kind, string Field, string? Source, string Value, string Detail, string Accepted, long Count);
