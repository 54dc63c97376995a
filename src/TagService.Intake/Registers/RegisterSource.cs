using TagService.Domain.Registers;
using TagService.Intake.Registers.Files;
using TagService.Intake.Registers.Http;

namespace TagService.Intake.Registers;

/// <summary>How one register is read, mapped and believed. Data: stored with its name, shown and edited; no secret in it.</summary>
public sealed record RegisterSource
{
    /// <summary>A register that answers HTTP; exactly one of the three kinds is given.</summary>
    public HttpRegisterOptions? Http { get; init; }

    /// <summary>Files of separated values.</summary>
    public CsvRegisterOptions? Csv { get; init; }

    /// <summary>Spreadsheets.</summary>
    public SpreadsheetRegisterOptions? Spreadsheet { get; init; }

    /// <summary>Which column feeds which field.</summary>
    public required RegisterMapping Mapping { get; init; }

    /// <summary>Whose word counts when the register's tag column and the recorded attachments disagree.</summary>
    public TagAuthority TagAuthority { get; init; }

    /// <summary>What becomes of assets that a complete list names no more.</summary>
    public WhenMissing WhenMissing { get; init; }

    /// <summary>Largest share of the listed assets, 0 to 1, that one run may retire by itself; beyond it the run is held for a person.</summary>
    public double MostMissingShare { get; init; } = 0.05;

    /// <summary>Hours after which everything is read although the source can tell what changed, 1 to 8,760: only a whole list shows what has gone.</summary>
    public int FullPassEveryHours { get; init; } = 168;
}
