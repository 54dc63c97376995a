using System.ComponentModel.DataAnnotations;
using TagService.Intake.Registers.Http;

namespace TagService.Api.Features.RegisterSources;

/// <summary>A register that answers HTTP with JSON.</summary>
public sealed record HttpSourceRequest
{
    /// <summary>Address of the first page, https unless the operator allows the host http; without user, password and fragment. No place for secrets: it is shown and kept in the history; name a credential instead.</summary>
    [MinLength(1), MaxLength(2000)]
    public required string Address { get; init; }

    /// <summary>JSON pointer (RFC 6901) of the array of rows, for example /items; empty when the answer itself is the array.</summary>
    [MaxLength(500)]
    public string RowsPointer { get; init; } = "";

    /// <summary>JSON pointer of the key within a row, to notice rows that come twice; without it only equal rows are noticed.</summary>
    [MaxLength(500)]
    public string? KeyPointer { get; init; }

    /// <summary>How rows are parted into pages; none if absent.</summary>
    public HttpPaging Paging { get; init; }

    /// <summary>For paging by cursor: JSON pointer of the cursor; an absent, null or empty one ends the pass.</summary>
    [MaxLength(500)]
    public string? CursorPointer { get; init; }

    /// <summary>For paging by cursor: query parameter that takes the cursor.</summary>
    [MaxLength(200)]
    public string? CursorParameter { get; init; }

    /// <summary>For paging by number: query parameter that takes the number of the page.</summary>
    [MaxLength(200)]
    public string? PageParameter { get; init; }

    /// <summary>For paging by number: number of the first page, without unit; 1 if absent.</summary>
    [Range(0, 1_000_000)]
    public int FirstPage { get; init; } = 1;

    /// <summary>For paging by number: how the last page is told; empty if absent, which never misses a row.</summary>
    public LastPage LastPage { get; init; }

    /// <summary>Query parameter that takes the rows wanted a page; needs pageSize.</summary>
    [MaxLength(200)]
    public string? SizeParameter { get; init; }

    /// <summary>Rows a page; needed when a short page is the last one.</summary>
    [Range(1, 100_000)]
    public int? PageSize { get; init; }

    /// <summary>JSON pointer of the number of all rows, where the source announces it; needed when the total tells the last page.</summary>
    [MaxLength(500)]
    public string? TotalPointer { get; init; }

    /// <summary>Query parameter that takes the moment since which rows have changed; without it every run reads all rows.</summary>
    [MaxLength(200)]
    public string? ChangedSinceParameter { get; init; }

    /// <summary>How that moment is written; rfc3339 if absent.</summary>
    public ChangedSinceFormat ChangedSinceFormat { get; init; }

    /// <summary>Minutes (min) to reach back before the start of the last run, for clocks that differ and changes that were under way; 10 if absent.</summary>
    [Range(0, 44_640)]
    public double ChangedSinceOverlapMinutes { get; init; } = 10;

    /// <summary>Ask with If-None-Match (RFC 9110) whether anything changed; only for sources of one page.</summary>
    public bool UseETag { get; init; }

    /// <summary>Name of a credential in the operator's configuration (Registers:Http:Credentials); the secret itself is never part of a source.</summary>
    [MinLength(1), MaxLength(200)]
    public string? CredentialName { get; init; }

    /// <summary>Largest page in bytes after decompression; 536870912 if absent.</summary>
    [Range(1024, 4_294_967_296)]
    public long MostPageBytes { get; init; } = 536_870_912;

    /// <summary>Largest row in bytes; 1048576 if absent.</summary>
    [Range(64, 16_777_216)]
    public int MostRowBytes { get; init; } = 1_048_576;

    /// <summary>Most pages of a run, without unit; 100000 if absent.</summary>
    [Range(1, 1_000_000)]
    public int MostPages { get; init; } = 100_000;
}
