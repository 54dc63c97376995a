using TagService.Domain.Recommendations;
using TagService.Storage.Bulk;
using TagService.Storage.Changes;

namespace TagService.Storage.Tables;

/// <summary>One asset of the register's mirror.</summary>
public sealed class AssetRow : IAudited
{
    /// <summary>The register's key.</summary>
    public required string AssetId { get; init; }

    /// <summary>The record; its own <c>assetId</c> equals <see cref="AssetId"/>.</summary>
    public required AssetRecord Record { get; set; }

    /// <summary>SHA-256 of the stored record, computed by the database, so that no writer can forget it.</summary>
    public string RecordHash { get; private set; } = "";

    /// <summary>The record's category, computed by the database.</summary>
    public string? Category { get; private set; }

    /// <summary>Where the register says the asset is, in the register's words.</summary>
    public string? LocationName { get; set; }

    /// <summary>The tag the register knows, as the register writes it.</summary>
    public string? RegisterTag { get; set; }

    /// <summary>The identity it names (<see cref="Bulk.RegisterTagKey"/>); null where it names none.</summary>
    [NoContent]
    public string? RegisterTagKey { get; set; }

    /// <summary>Name of the register source that last fed it, or <see cref="AssetSources.Push"/>.</summary>
    public required string Source { get; set; }

    /// <summary>When it was retired; null: in service.</summary>
    public DateTimeOffset? RetiredAt { get; set; }

    /// <summary>Why it was retired, in the register's words.</summary>
    public string? RetiredReason { get; set; }

    /// <summary>When the mirror first had it.</summary>
    public required DateTimeOffset FirstSeenAt { get; init; }

    /// <summary>When its content last changed.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>Hash of what the register says (<see cref="AssetContent.HashOf"/>); empty: not worked out yet.</summary>
    [NoContent]
    public byte[] ContentHash { get; set; } = [];

    /// <summary>What the engine reads of the record (<see cref="EngineInput.KeyOf"/>); empty: not worked out yet.</summary>
    [NoContent]
    public string InputKey { get; set; } = "";

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    /// <summary>The stored recommendation, if there is one yet.</summary>
    public AssetRecommendationRow? Recommendation { get; private set; }

    /// <summary>What the register says of it.</summary>
    public AssetToLoad ToContent() =>
        new(Record, LocationName) { RegisterTag = RegisterTag, Retired = RetiredAt is null ? null : new(RetiredAt, RetiredReason) };

    string IAudited.AuditKind => AuditKinds.Asset;

    string IAudited.AuditKey => AssetId;
}
