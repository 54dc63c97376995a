using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

// A table of its own and no column of the asset: marking must not rewrite the asset's row nor move its ETag.
internal sealed class RecommendationDueTable : IEntityTypeConfiguration<RecommendationDueRow>
{
    public void Configure(EntityTypeBuilder<RecommendationDueRow> builder)
    {
        builder.ToTable("recommendations_due");
        builder.HasKey(d => d.AssetId);
        builder.Property(d => d.AssetId).UseCollation("C");
    }
}
