using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RegisterRowTable : IEntityTypeConfiguration<RegisterRowRow>
{
    public void Configure(EntityTypeBuilder<RegisterRowRow> builder)
    {
        builder.ToTable("register_rows");
        builder.HasKey(r => new { r.SourceName, r.AssetId });
        builder.Property(r => r.SourceName).UseCollation("C");
        builder.Property(r => r.AssetId).UseCollation("C");
        builder.HasIndex(r => new { r.SourceName, r.RowHash });
    }
}
