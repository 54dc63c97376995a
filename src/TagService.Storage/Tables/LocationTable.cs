using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.Recommendations;

namespace TagService.Storage.Tables;

internal sealed class LocationTable : IEntityTypeConfiguration<LocationRow>, IEntityTypeConfiguration<LocationNameRow>
{
    public void Configure(EntityTypeBuilder<LocationRow> builder)
    {
        builder.ToTable("locations", table =>
        {
            table.HasCheckConstraint("ck_locations_id", "length(id) BETWEEN 1 AND 100");
            // Longer cycles are kept out under the lock of the tree.
            table.HasCheckConstraint("ck_locations_parent", "parent_id <> id");
        });
        builder.HasKey(l => l.Id);
        builder.Property(l => l.Id).UseCollation("C");
        builder.Property(l => l.ParentId).UseCollation("C");
        builder.Property(l => l.Setting).HasConversion(new KebabText<Setting>());
        builder.Property(l => l.Version).IsRowVersion().HasColumnName("xmin");
        builder.HasOne<LocationRow>().WithMany().HasForeignKey(l => l.ParentId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(l => l.Names).WithOne().HasForeignKey(n => n.LocationId).OnDelete(DeleteBehavior.Cascade);
    }

    public void Configure(EntityTypeBuilder<LocationNameRow> builder)
    {
        builder.ToTable("location_names");
        builder.HasKey(n => new { n.LocationId, n.Folded });
        builder.Property(n => n.LocationId).UseCollation("C");
        builder.Property(n => n.Folded).UseCollation("C");
        builder.HasIndex(n => n.Folded);
        builder.HasIndex(n => n.Folded, "alias").HasDatabaseName("ux_location_names_alias").IsUnique().HasFilter("is_alias");
    }
}
