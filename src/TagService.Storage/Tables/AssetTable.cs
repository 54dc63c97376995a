using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.Recommendations;
using TagService.Storage.Bulk;

namespace TagService.Storage.Tables;

internal sealed class AssetTable : IEntityTypeConfiguration<AssetRow>
{
    public void Configure(EntityTypeBuilder<AssetRow> builder)
    {
        builder.ToTable("assets", table =>
        {
            table.HasCheckConstraint("ck_assets_record_key", "coalesce(record ->> 'assetId', '') = asset_id");
            table.HasCheckConstraint("ck_assets_asset_id", "length(asset_id) BETWEEN 1 AND 200");
            table.HasCheckConstraint("ck_assets_retired", "retired_at IS NOT NULL OR retired_reason IS NULL");
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
        // The defaults are for rows of a program version that does not know these columns; this one always writes them.
        builder.Property(a => a.Source).HasDefaultValue(AssetSources.Unknown).ValueGeneratedNever();
        builder.Property(a => a.FirstSeenAt).HasDefaultValueSql("now()").ValueGeneratedNever();
        builder.Property(a => a.ContentHash).HasDefaultValueSql("'\\x'::bytea").ValueGeneratedNever();
        builder.Property(a => a.InputKey).HasDefaultValue("").ValueGeneratedNever();
        // The filters of the list, each in the order of its pages; a changed asset is looked up by time.
        builder.HasIndex(a => new { a.Category, a.AssetId });
        builder.HasIndex(a => new { a.LocationName, a.AssetId });
        builder.HasIndex(a => a.UpdatedAt);
        builder.Property(a => a.RegisterTagKey).UseCollation("C");
        // What registers are to be told is looked for by what their tag column holds.
        builder.HasIndex(a => a.AssetId, "without_register_tag").HasDatabaseName("ix_assets_without_register_tag").HasFilter("register_tag IS NULL AND retired_at IS NULL");
        builder.HasIndex(a => a.AssetId, "unreadable_register_tag").HasDatabaseName("ix_assets_unreadable_register_tag")
            .HasFilter("register_tag IS NOT NULL AND register_tag_key IS NULL");
        builder.HasIndex(a => a.AssetId, "register_tag_key").HasDatabaseName("ix_assets_register_tag_key").HasFilter("register_tag_key IS NOT NULL AND retired_at IS NULL")
            .IncludeProperties(a => new { a.RegisterTagKey, a.Source });
        builder.HasIndex(a => a.AssetId, "retired").HasDatabaseName("ix_assets_retired").HasFilter("retired_at IS NOT NULL");
        builder.HasIndex(a => a.AssetId, "without_input_key").HasDatabaseName("ix_assets_without_input_key").HasFilter("input_key = ''");
    }

    // Records holding lists and dictionaries compare them by reference; what counts is what would be stored.
    private static ValueComparer<AssetRecord> SameJson { get; } = new(
        (a, b) => ReferenceEquals(a, b) || (a != null && b != null && AssetRecordJson.Write(a) == AssetRecordJson.Write(b)),
        r => AssetRecordJson.Write(r).GetHashCode(StringComparison.Ordinal),
        r => r);
}
