using TagService.Domain.Recommendations;

namespace TagService.Storage.Tables;

/// <summary>One asset of the register's mirror.</summary>
public sealed class AssetRow
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

    /// <summary>When this row was last written.</summary>
    public required DateTimeOffset UpdatedAt { get; set; }

    /// <summary>PostgreSQL's xmin: changes with every update of the row.</summary>
    public uint Version { get; private set; }

    /// <summary>The stored recommendation, if there is one yet.</summary>
    public AssetRecommendationRow? Recommendation { get; private set; }
}
