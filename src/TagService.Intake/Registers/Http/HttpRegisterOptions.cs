namespace TagService.Intake.Registers.Http;

/// <summary>How a source parts its rows into pages.</summary>
public enum HttpPaging
{
    /// <summary>One answer holds all rows.</summary>
    None,

    /// <summary>The header <c>Link</c> with <c>rel="next"</c> names the next page (RFC 8288).</summary>
    Link,

    /// <summary>A member of the answer holds a cursor that is sent back as a query parameter.</summary>
    Cursor,

    /// <summary>A query parameter counts the pages.</summary>
    PageNumber,
}

/// <summary>How the last of numbered pages is told.</summary>
public enum LastPage
{
    /// <summary>It has no rows. Costs one request more and never misses a row.</summary>
    Empty,

    /// <summary>It has fewer rows than a page holds.</summary>
    Short,

    /// <summary>As many rows have been read as the source announced.</summary>
    Total,
}

/// <summary>How the moment of the last pass is written in a query.</summary>
public enum ChangedSinceFormat
{
    /// <summary>RFC 3339 in UTC, for example 2025-12-31T23:59:59Z.</summary>
    Rfc3339,

    /// <summary>Seconds since 1970-01-01T00:00:00Z.</summary>
    UnixSeconds,
}

/// <summary>A register that answers HTTP with JSON. Data: stored with the source, no secret in it.</summary>
public sealed record HttpRegisterOptions
{
    /// <summary>Address of the first page, https unless the operator allows the host http; without user or password.</summary>
    public required Uri Address { get; init; }

    /// <summary>JSON pointer (RFC 6901) of the array of rows; empty when the answer itself is the array.</summary>
    public string RowsPointer { get; init; } = "";

    /// <summary>JSON pointer of the key within a row, to notice rows that come twice; null: only equal rows are noticed.</summary>
    public string? KeyPointer { get; init; }

    /// <summary>How rows are parted into pages.</summary>
    public HttpPaging Paging { get; init; }

    /// <summary>JSON pointer of the cursor; an absent, null or empty one ends the pass.</summary>
    public string? CursorPointer { get; init; }

    /// <summary>Query parameter that takes the cursor.</summary>
    public string? CursorParameter { get; init; }

    /// <summary>Query parameter that takes the number of the page.</summary>
    public string? PageParameter { get; init; }

    /// <summary>Number of the first page.</summary>
    public int FirstPage { get; init; } = 1;

    /// <summary>How the last of numbered pages is told.</summary>
    public LastPage LastPage { get; init; }

    /// <summary>Query parameter that takes the rows wanted a page; null when the source has none.</summary>
    public string? SizeParameter { get; init; }

    /// <summary>Rows a page, 1 to 100,000; needed for <see cref="LastPage.Short"/>.</summary>
    public int? PageSize { get; init; }

    /// <summary>JSON pointer of the number of all rows, where the source announces it; needed for <see cref="LastPage.Total"/>.</summary>
    public string? TotalPointer { get; init; }

    /// <summary>Query parameter that takes the moment since which rows have changed; null: every pass reads all.</summary>
    public string? ChangedSinceParameter { get; init; }

    /// <summary>How that moment is written.</summary>
    public ChangedSinceFormat ChangedSinceFormat { get; init; }

    /// <summary>How far to reach back before the start of the last pass, for clocks that differ and changes that were under way.</summary>
    public TimeSpan ChangedSinceOverlap { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>Ask with <c>If-None-Match</c> (RFC 9110, section 13.1.2) whether anything changed; only for sources of one page.</summary>
    public bool UseETag { get; init; }

    /// <summary>Name of the credential in the operator's configuration; null: none is sent.</summary>
    public string? CredentialName { get; init; }

    /// <summary>Largest page in bytes after decompression, 1 KiB to 4 GiB.</summary>
    public long MostPageBytes { get; init; } = 512L * 1024 * 1024;

    /// <summary>Largest row in bytes, 64 to 16 MiB.</summary>
    public int MostRowBytes { get; init; } = 1024 * 1024;

    /// <summary>Most pages of a pass, 1 to 1,000,000.</summary>
    public int MostPages { get; init; } = 100_000;
}
