namespace TagService.Storage.Tables;

/// <summary>
/// One decoded identity and the number everything else calls it by. Made when an identity is first recorded; what people say of
/// tags stands in their attachments, which are audited.
/// </summary>
public sealed class TagRow
{
    /// <summary>The number: the distribution key of every table that grows with reads.</summary>
    public long Id { get; private set; }

    /// <summary>Canonical text of the decoded identity.</summary>
    public required string Identity { get; init; }

    /// <summary>The EPC field as first seen, upper-case hexadecimal; null while only other forms were seen.</summary>
    public string? EpcHex { get; init; }

    /// <summary>Scheme that EPC field follows; null for raw bits or while only other forms were seen.</summary>
    public string? Scheme { get; init; }

    /// <summary>TID first recorded with it, upper-case hexadecimal; each attachment has its own.</summary>
    public string? TidHex { get; init; }

    /// <summary>When it was first recorded.</summary>
    public required DateTimeOffset FirstRecordedAt { get; init; }
}
