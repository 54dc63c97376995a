using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class TagTable : IEntityTypeConfiguration<TagRow>
{
    public void Configure(EntityTypeBuilder<TagRow> builder)
    {
        builder.ToTable("tags", table => table.HasCheckConstraint("ck_tags_identity", "length(identity) BETWEEN 1 AND 300"));
        builder.HasKey(t => t.Id);
        builder.Property(t => t.Id).UseIdentityAlwaysColumn();
        builder.Property(t => t.Identity).UseCollation("C");
        builder.HasIndex(t => t.Identity).IsUnique();
    }
}
