using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>An identity that was taken for a tag of an asset, so that every further instruction names the same one.</summary>
public sealed class ReservedIdentityRow : IAudited
{
    /// <summary>Canonical text of the identity.</summary>
    public required string Identity { get; init; }

    /// <summary>The asset whose tag gets it.</summary>
    public required string AssetId { get; init; }

    /// <summary>For a further tag beside the one the asset has or gets, instead of for that one.</summary>
    public required bool IsAdditional { get; init; }

    /// <summary>Content of EPC memory, whole words in upper-case hexadecimal.</summary>
    public required string EpcHex { get; init; }

    /// <summary>The numbering rule it came from.</summary>
    public required string NumberingRuleId { get; init; }

    /// <summary>When it was reserved.</summary>
    public required DateTimeOffset ReservedAt { get; init; }

    /// <summary>The attachment that uses it; null: still to be used.</summary>
    public Guid? AttachmentId { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    string IAudited.AuditKind => AuditKinds.ReservedIdentity;

    string IAudited.AuditKey => Identity;
}
