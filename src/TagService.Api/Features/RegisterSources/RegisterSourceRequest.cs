using System.ComponentModel.DataAnnotations;
using TagService.Api.Http;
using TagService.Domain.Registers;

namespace TagService.Api.Features.RegisterSources;

/// <summary>A register source, whole: how it is read, mapped and believed. Exactly one of http, csv and spreadsheet.</summary>
public sealed record RegisterSourceRequest
{
    /// <summary>Name of the source, if sent the same as in the path.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? Name { get; init; }

    /// <summary>A register that answers HTTP.</summary>
    public HttpSourceRequest? Http { get; init; }

    /// <summary>Files of separated values.</summary>
    public CsvSourceRequest? Csv { get; init; }

    /// <summary>Spreadsheets.</summary>
    public SpreadsheetSourceRequest? Spreadsheet { get; init; }

    /// <summary>Which column feeds which field.</summary>
    public required RegisterMappingRequest Mapping { get; init; }

    /// <summary>Runs are made by the schedule; true if absent. A run that is asked for is made in any case.</summary>
    public bool Enabled { get; init; } = true;

    /// <summary>Minutes (min) between the requests of two runs; absent: only when asked for.</summary>
    [Range(1, 525_600)]
    public int? EveryMinutes { get; init; }

    /// <summary>Who is believed when the register's tag column and the recorded attachments disagree; attachments if absent.</summary>
    public TagAuthority TagAuthority { get; init; }

    /// <summary>What becomes of assets that a complete list names no more; retire if absent.</summary>
    public WhenMissing WhenMissing { get; init; }

    /// <summary>Largest share of the listed assets, 0 to 1, that one run may retire by itself; 0.05 if absent. Up to 10 assets may always go.</summary>
    [Range(0, 1)]
    public double MostMissingShare { get; init; } = 0.05;

    /// <summary>Hours (h) after which everything is read although the source can tell what changed; 168 if absent.</summary>
    [Range(1, 8760)]
    public int FullPassEveryHours { get; init; } = 168;
}
