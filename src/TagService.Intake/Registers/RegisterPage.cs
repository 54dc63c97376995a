using TagService.Domain.Registers;

namespace TagService.Intake.Registers;

/// <summary>Some rows of a source and the position behind them.</summary>
public sealed record RegisterPage
{
    /// <summary>Rows in the source's order.</summary>
    public required IReadOnlyList<RawRow> Rows { get; init; }

    /// <summary>Rows that could not be read as rows; the rest goes on.</summary>
    public IReadOnlyList<UnreadableRow> Unreadable { get; init; } = [];

    /// <summary>What whoever looks after the source should know.</summary>
    public IReadOnlyList<RegisterNotice> Notices { get; init; } = [];

    /// <summary>The position behind these rows; to be stored together with them.</summary>
    public required RegisterPosition After { get; init; }

    /// <summary>Rows of the whole pass that the source has announced so far, where it does.</summary>
    public long? Announced { get; init; }

    /// <summary>How the pass ended; only on its last page.</summary>
    public PassEnd? End { get; init; }
}

/// <summary>A row as it was read.</summary>
/// <param name="Place">Where it stood, for a person: "page 3, item 17" or "pumps.csv, line 88".</param>
/// <param name="OriginalText">Its text as the source wrote it, at most 4,000 characters.</param>
/// <param name="Row">Names and values.</param>
/// <param name="Repeat">Whether the same row or key came before in this pass.</param>
public sealed record RawRow(string Place, string OriginalText, RegisterRow Row, RowRepeat Repeat = RowRepeat.None);

/// <summary>Whether a row came before in the same pass, as far as this process has seen the pass.</summary>
public enum RowRepeat
{
    /// <summary>It did not.</summary>
    None,

    /// <summary>Letter by letter the same.</summary>
    Same,

    /// <summary>The same key with other values.</summary>
    Changed,
}

/// <summary>A row that could not be read as a row.</summary>
/// <param name="Place">Where it stood.</param>
/// <param name="OriginalText">Its text, at most 4,000 characters.</param>
/// <param name="Reason">What is wrong with it.</param>
public sealed record UnreadableRow(string Place, string OriginalText, string Reason);

/// <summary>Something about the source that whoever looks after it should know.</summary>
/// <param name="Code">Stable word, for example <c>encoding-detected</c>.</param>
/// <param name="Detail">A sentence.</param>
public sealed record RegisterNotice(string Code, string Detail);

/// <summary>How a pass ended.</summary>
public sealed record PassEnd
{
    /// <summary>The source says that nothing changed since the last pass; no row was read.</summary>
    public bool NothingNew { get; init; }

    /// <summary>Only what changed since the last pass was asked for: an asset that is not among the rows has not gone.</summary>
    public bool ChangesOnly { get; init; }

    /// <summary>Rows read in the whole pass, repeated ones included, unreadable ones not.</summary>
    public required long Rows { get; init; }

    /// <summary>Rows that could not be read, in the whole pass.</summary>
    public required long Unreadable { get; init; }

    /// <summary>Rows that the source announced, where it does.</summary>
    public long? Announced { get; init; }

    /// <summary>Why the list may not be complete, for example that the source changed under the reader.</summary>
    public IReadOnlyList<string> Doubts { get; init; } = [];

    /// <summary>Only then may an asset that is not among the rows be taken as gone.</summary>
    public bool IsCompleteList => !NothingNew && !ChangesOnly && Doubts.Count == 0;
}
