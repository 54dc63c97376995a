using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class AssetRecommendationTable : IEntityTypeConfiguration<AssetRecommendationRow>
{
    public void Configure(EntityTypeBuilder<AssetRecommendationRow> builder)
    {
        builder.ToTable("asset_recommendations", table =>
        {
            table.HasCheckConstraint(
                "ck_asset_recommendations_class_or_reason", "(tag_class_id IS NULL) = (none_because IS NOT NULL)");
            table.HasCheckConstraint(
                "ck_asset_recommendations_amount_with_currency",
                "(lifetime_cost_present_value IS NULL) = (lifetime_cost_currency IS NULL)");
        });
        builder.HasKey(r => r.AssetId);
        builder.Property(r => r.AssetId).UseCollation("C");
        builder.HasOne<AssetRow>().WithOne(a => a.Recommendation)
            .HasForeignKey<AssetRecommendationRow>(r => r.AssetId)
            .OnDelete(DeleteBehavior.Cascade);
        // The naming convention would write p10m.
        builder.Property(r => r.P10M).HasColumnName("p10_m");
        builder.Property(r => r.P50M).HasColumnName("p50_m");
        builder.Property(r => r.P90M).HasColumnName("p90_m");
        builder.Property(r => r.MaterialId).UseCollation("C").HasDefaultValue("").ValueGeneratedNever();
        builder.Property(r => r.MeasuredVersion).UseCollation("C").HasDefaultValue("").ValueGeneratedNever();
        builder.Property(r => r.InputKey).HasDefaultValue("").ValueGeneratedNever();
        // What answers rest on: a handful of values, each found by one step, and behind each its assets in order.
        builder.HasIndex(r => new { r.EngineVersion, r.CatalogueVersion, r.MaterialId, r.MeasuredVersion, r.AssetId }).HasDatabaseName("ix_asset_recommendations_basis");
        builder.Property(r => r.LifetimeCostPresentValue).HasPrecision(18, 2);
        builder.Property(r => r.LifetimeCostCurrency).HasColumnType("char(3)");
    }
}
