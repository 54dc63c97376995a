namespace TagService.Api.Features.RegisterSources;

/// <summary>How a register is read, without a mapping. Exactly one of http, csv and spreadsheet.</summary>
public sealed record RegisterReadingRequest
{
    /// <summary>A register that answers HTTP.</summary>
    public HttpSourceRequest? Http { get; init; }

    /// <summary>Files of separated values.</summary>
    public CsvSourceRequest? Csv { get; init; }

    /// <summary>Spreadsheets.</summary>
    public SpreadsheetSourceRequest? Spreadsheet { get; init; }
}
