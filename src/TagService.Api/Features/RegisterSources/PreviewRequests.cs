using System.ComponentModel.DataAnnotations;
using System.Text.Json;
using TagService.Api.Http;

namespace TagService.Api.Features.RegisterSources;

/// <summary>What a saved source is tried on. Without rows and csvText the source itself is read.</summary>
public sealed record PreviewSourceRequest
{
    /// <summary>Most rows to look at, without unit; 200 if absent.</summary>
    [Range(1, PreviewMaker.MostRows)]
    public int? MaxRows { get; init; }

    /// <summary>Rows to try instead, as JSON objects.</summary>
    [MaxLength(PreviewMaker.MostRows)]
    public IReadOnlyList<JsonElement>? Rows { get; init; }

    /// <summary>Rows to try instead, as separated values with a header row; the separator is found out.</summary>
    public string? CsvText { get; init; }
}

/// <summary>A source that is not saved, and what it is tried on. Without rows and csvText the source itself is read.</summary>
public sealed record PreviewUnsavedRequest
{
    /// <summary>The source as it would be saved; of http, csv and spreadsheet none is needed when rows or csvText are sent.</summary>
    public required RegisterSourceRequest Source { get; init; }

    /// <summary>Name of a saved source that it would replace, so that assets which that one listed before are known.</summary>
    [MaxLength(ItemId.MaxLength)]
    public string? Replaces { get; init; }

    /// <summary>Most rows to look at, without unit; 200 if absent.</summary>
    [Range(1, PreviewMaker.MostRows)]
    public int? MaxRows { get; init; }

    /// <summary>Rows to try, as JSON objects.</summary>
    [MaxLength(PreviewMaker.MostRows)]
    public IReadOnlyList<JsonElement>? Rows { get; init; }

    /// <summary>Rows to try, as separated values with a header row; the separator is found out.</summary>
    public string? CsvText { get; init; }
}

/// <summary>What a mapping is to be suggested for: exactly one of source, rows and csvText.</summary>
public sealed record SuggestMappingRequest
{
    /// <summary>A source whose first rows are read.</summary>
    public RegisterReadingRequest? Source { get; init; }

    /// <summary>Sample rows as JSON objects.</summary>
    [MaxLength(SuggestMapping.MostRows)]
    public IReadOnlyList<JsonElement>? Rows { get; init; }

    /// <summary>Sample rows as separated values with a header row; the separator is found out.</summary>
    public string? CsvText { get; init; }

    /// <summary>Most rows to look at, without unit; 200 if absent.</summary>
    [Range(1, SuggestMapping.MostRows)]
    public int? MaxRows { get; init; }
}
