using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RegisterSourceTable : IEntityTypeConfiguration<RegisterSourceRow>
{
    public void Configure(EntityTypeBuilder<RegisterSourceRow> builder)
    {
        builder.ToTable("register_sources", table =>
        {
            table.HasCheckConstraint("ck_register_sources_name", "length(name) BETWEEN 1 AND 100");
            table.HasCheckConstraint("ck_register_sources_every_minutes", "every_minutes > 0");
        });
        builder.HasKey(s => s.Name);
        builder.Property(s => s.Name).UseCollation("C");
        builder.Property(s => s.Settings).HasColumnType("jsonb");
        builder.Property(s => s.Version).IsRowVersion().HasColumnName("xmin");
    }
}
