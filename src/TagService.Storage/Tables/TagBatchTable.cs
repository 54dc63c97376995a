using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class TagBatchTable : IEntityTypeConfiguration<TagBatchRow>
{
    public void Configure(EntityTypeBuilder<TagBatchRow> builder)
    {
        builder.ToTable("tag_batches", table =>
        {
            table.HasCheckConstraint("ck_tag_batches_id", "length(id) BETWEEN 1 AND 100");
            table.HasCheckConstraint("ck_tag_batches_price_with_currency", "(price IS NULL) = (currency IS NULL)");
            table.HasCheckConstraint("ck_tag_batches_quantity", "quantity > 0");
        });
        builder.HasKey(b => b.Id);
        builder.Property(b => b.Id).UseCollation("C");
        builder.Property(b => b.TagClassId).UseCollation("C");
        builder.Property(b => b.Price).HasPrecision(18, 4);
        builder.Property(b => b.Currency).HasColumnType("char(3)");
        builder.Property(b => b.Version).IsRowVersion().HasColumnName("xmin");
        builder.HasIndex(b => new { b.TagClassId, b.Id });
    }
}
