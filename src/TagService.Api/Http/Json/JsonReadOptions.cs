namespace TagService.Api.Http.Json;

/// <summary>How one body is read.</summary>
public sealed record JsonReadOptions
{
    /// <summary>Body limit of a single record in bytes.</summary>
    public const int SingleRecordBytes = 1024 * 1024;

    /// <summary>The usual way.</summary>
    public static JsonReadOptions Default { get; } = new();

    /// <summary>Largest body in bytes.</summary>
    public int MaxBytes { get; init; } = SingleRecordBytes;

    /// <summary>
    /// Refuses members that the type does not have even where the type welcomes them (it has a member marked
    /// <c>[JsonExtensionData]</c>). Set by <c>Prefer: handling=strict</c> of RFC 7240 when read from a request.
    /// </summary>
    public bool RefuseOtherMembers { get; init; }

    /// <summary>
    /// Names that are known elsewhere in the type and nevertheless welcome as other members: plain words that registers
    /// use for something of their own. All further known names in the wrong place are refused with their right place.
    /// </summary>
    public IReadOnlySet<string> NotMisplaced { get; init; } = new HashSet<string>();
}
