using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.Recommendations;

namespace TagService.Storage.Tables;

internal sealed class AssetTable : IEntityTypeConfiguration<AssetRow>
{
    public void Configure(EntityTypeBuilder<AssetRow> builder)
    {
        builder.ToTable("assets", table =>
        {
            table.HasCheckConstraint("ck_assets_record_key", "coalesce(record ->> 'assetId', '') = asset_id");
            table.HasCheckConstraint("ck_assets_asset_id", "length(asset_id) BETWEEN 1 AND 200");
        });
        builder.HasKey(a => a.AssetId);
        // Ordinal order, the same on every server: page cursors and claims go by it.
        builder.Property(a => a.AssetId).UseCollation("C");
        builder.Property(a => a.Record)
            .HasColumnType("jsonb")
            .HasConversion(r => AssetRecordJson.Write(r), json => AssetRecordJson.Read(json), SameJson);
        builder.Property(a => a.RecordHash)
            .HasComputedColumnSql("encode(sha256(jsonb_send(record)), 'hex')", stored: true);
        builder.Property(a => a.Category)
            .HasComputedColumnSql("record ->> 'category'", stored: true);
        builder.Property(a => a.Version).IsRowVersion().HasColumnName("xmin");
    }

    // Records holding lists and dictionaries compare them by reference; what counts is what would be stored.
    private static ValueComparer<AssetRecord> SameJson { get; } = new(
        (a, b) => ReferenceEquals(a, b) || (a != null && b != null && AssetRecordJson.Write(a) == AssetRecordJson.Write(b)),
        r => AssetRecordJson.Write(r).GetHashCode(StringComparison.Ordinal),
        r => r);
}
