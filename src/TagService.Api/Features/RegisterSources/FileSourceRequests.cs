using System.ComponentModel.DataAnnotations;
using TagService.Intake.Registers.Files;

namespace TagService.Api.Features.RegisterSources;

/// <summary>Files of separated values in a folder.</summary>
public sealed record CsvSourceRequest
{
    /// <summary>Name of a folder in the operator's configuration (Registers:Files:Folders), never a path.</summary>
    [MinLength(1), MaxLength(200)]
    public required string Folder { get; init; }

    /// <summary>Names of files with * and ?, without regard to case; only files of the folder itself.</summary>
    [MinLength(1), MaxLength(200)]
    public required string Pattern { get; init; }

    /// <summary>Which of them; newest if absent.</summary>
    public WhichFiles Which { get; init; }

    /// <summary>A file holds what changed, not the whole register: what is not in it has not gone.</summary>
    public bool HoldsChangesOnly { get; init; }

    /// <summary>Rows above the header that are passed over; 0 if absent.</summary>
    [Range(0, 1000)]
    public int RowsBeforeHeader { get; init; }

    /// <summary>Names of the columns when the file has no header row.</summary>
    [MaxLength(1000)]
    public IReadOnlyList<string>? ColumnNames { get; init; }

    /// <summary>Column of the key, to notice rows that come twice; without it only equal rows are noticed.</summary>
    [MinLength(1), MaxLength(500)]
    public string? KeyColumn { get; init; }

    /// <summary>Most columns, without unit; 1000 if absent.</summary>
    [Range(1, 16_384)]
    public int MostColumns { get; init; } = 1000;

    /// <summary>utf-8, utf-16, utf-16be or windows-1252; found out if absent. A byte order mark always decides.</summary>
    [MaxLength(40)]
    public string? Encoding { get; init; }

    /// <summary>Comma, semicolon, tab or bar as one character; found out if absent.</summary>
    [MinLength(1), MaxLength(1)]
    public string? Separator { get; init; }

    /// <summary>Most characters of a row; 1048576 if absent.</summary>
    [Range(100, 16_777_216)]
    public int MostRowCharacters { get; init; } = 1_048_576;
}

/// <summary>Spreadsheets in the Office Open XML format (ECMA-376, .xlsx) in a folder.</summary>
public sealed record SpreadsheetSourceRequest
{
    /// <summary>Name of a folder in the operator's configuration (Registers:Files:Folders), never a path.</summary>
    [MinLength(1), MaxLength(200)]
    public required string Folder { get; init; }

    /// <summary>Names of files with * and ?, without regard to case; only files of the folder itself.</summary>
    [MinLength(1), MaxLength(200)]
    public required string Pattern { get; init; }

    /// <summary>Which of them; newest if absent.</summary>
    public WhichFiles Which { get; init; }

    /// <summary>A file holds what changed, not the whole register: what is not in it has not gone.</summary>
    public bool HoldsChangesOnly { get; init; }

    /// <summary>Rows above the header that are passed over; 0 if absent.</summary>
    [Range(0, 1000)]
    public int RowsBeforeHeader { get; init; }

    /// <summary>Names of the columns when the file has no header row.</summary>
    [MaxLength(1000)]
    public IReadOnlyList<string>? ColumnNames { get; init; }

    /// <summary>Column of the key, to notice rows that come twice; without it only equal rows are noticed.</summary>
    [MinLength(1), MaxLength(500)]
    public string? KeyColumn { get; init; }

    /// <summary>Most columns, without unit; 1000 if absent.</summary>
    [Range(1, 16_384)]
    public int MostColumns { get; init; } = 1000;

    /// <summary>Name of the sheet; the first that is not hidden if absent.</summary>
    [MinLength(1), MaxLength(100)]
    public string? Sheet { get; init; }

    /// <summary>Most bytes of all parts of the file unpacked; 4294967296 if absent.</summary>
    [Range(1_048_576, 17_179_869_184)]
    public long MostUnpackedBytes { get; init; } = 4_294_967_296;

    /// <summary>Most characters of the table of shared texts, which is held in memory; 268435456 if absent.</summary>
    [Range(1024, 1_073_741_824)]
    public int MostSharedCharacters { get; init; } = 268_435_456;
}
