namespace TagService.Intake.Registers.Files;

/// <summary>Which files of a folder make a pass.</summary>
public enum WhichFiles
{
    /// <summary>The one written last; unchanged it is nothing new.</summary>
    Newest,

    /// <summary>Each file once, one a pass, in the order of the names (ordinal); a name that sorts before one already read is not read.</summary>
    EachOnce,
}

/// <summary>Files in a folder. Data: stored with the source.</summary>
public abstract record FileRegisterOptions
{
    private protected FileRegisterOptions()
    {
    }

    /// <summary>Name of a folder in the operator's configuration.</summary>
    public required string Folder { get; init; }

    /// <summary>Names of files with <c>*</c> and <c>?</c>, without regard to case; only files of the folder itself.</summary>
    public required string Pattern { get; init; }

    /// <summary>Which of them.</summary>
    public WhichFiles Which { get; init; }

    /// <summary>A file holds what changed, not the whole register: what is not in it has not gone.</summary>
    public bool HoldsChangesOnly { get; init; }

    /// <summary>Rows above the header that are passed over, 0 to 1,000.</summary>
    public int RowsBeforeHeader { get; init; }

    /// <summary>Names of the columns when the file has no header row; null: the first row is the header.</summary>
    public IReadOnlyList<string>? ColumnNames { get; init; }

    /// <summary>Column of the key, to notice rows that come twice; null: only equal rows are noticed.</summary>
    public string? KeyColumn { get; init; }

    /// <summary>Most columns, 1 to 16,384.</summary>
    public int MostColumns { get; init; } = 1000;
}

/// <summary>Files of separated values (RFC 4180).</summary>
public sealed record CsvRegisterOptions : FileRegisterOptions
{
    /// <summary><c>utf-8</c>, <c>utf-16</c>, <c>utf-16be</c> or <c>windows-1252</c>; null: found out. A byte order mark always decides.</summary>
    public string? Encoding { get; init; }

    /// <summary>Comma, semicolon, tab or bar; null: found out.</summary>
    public char? Separator { get; init; }

    /// <summary>Most characters of a row, 100 to 16,777,216.</summary>
    public int MostRowCharacters { get; init; } = 1024 * 1024;
}

/// <summary>Spreadsheets in the Office Open XML format (ECMA-376, .xlsx).</summary>
public sealed record SpreadsheetRegisterOptions : FileRegisterOptions
{
    /// <summary>Name of the sheet; null: the first that is not hidden.</summary>
    public string? Sheet { get; init; }

    /// <summary>Most bytes of all parts of the file unpacked, 1 MiB to 16 GiB.</summary>
    public long MostUnpackedBytes { get; init; } = 4L * 1024 * 1024 * 1024;

    /// <summary>Most characters of the table of shared texts, which is held in memory, 1,024 to 1,073,741,824.</summary>
    public int MostSharedCharacters { get; init; } = 256 * 1024 * 1024;
}
