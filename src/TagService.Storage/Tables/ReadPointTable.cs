using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.Places;
using TagService.Domain.Recommendations;

namespace TagService.Storage.Tables;

internal sealed class ReadPointTable : IEntityTypeConfiguration<ReadPointRow>, IEntityTypeConfiguration<ReadPointNameRow>
{
    public void Configure(EntityTypeBuilder<ReadPointRow> builder)
    {
        builder.ToTable("read_points", table =>
        {
            table.HasCheckConstraint("ck_read_points_id", "length(id) BETWEEN 1 AND 100");
            table.HasCheckConstraint("ck_read_points_kind", $"kind IN ({KebabText<ReadPointKind>.SqlList})");
            table.HasCheckConstraint("ck_read_points_antenna_of_reader", "antenna IS NULL OR reader_name IS NOT NULL");
            table.HasCheckConstraint("ck_read_points_sweeps_of_kind", "(kind IN ('area', 'cabinet')) = (sweep_hours IS NOT NULL)");
        });
        builder.HasKey(r => r.Id);
        builder.Property(r => r.Id).UseCollation("C");
        builder.Property(r => r.LocationId).UseCollation("C");
        builder.Property(r => r.ReaderName).UseCollation("C");
        builder.Property(r => r.Kind).HasConversion(new KebabText<ReadPointKind>());
        builder.Property(r => r.ReaderKind).HasConversion(new KebabText<ReaderKind>());
        builder.Property(r => r.Version).IsRowVersion().HasColumnName("xmin");
        builder.HasOne<LocationRow>().WithMany().HasForeignKey(r => r.LocationId).OnDelete(DeleteBehavior.Restrict);
        builder.HasMany(r => r.Names).WithOne().HasForeignKey(n => n.ReadPointId).OnDelete(DeleteBehavior.Cascade);
        // A reader without antenna is one read point too: two rows without antenna are the same pair.
        builder.HasIndex(r => new { r.ReaderName, r.Antenna })
            .HasDatabaseName("ux_read_points_reader_antenna").IsUnique().AreNullsDistinct(false).HasFilter("reader_name IS NOT NULL");
    }

    public void Configure(EntityTypeBuilder<ReadPointNameRow> builder)
    {
        builder.ToTable("read_point_names");
        builder.HasKey(n => new { n.ReadPointId, n.Folded });
        builder.Property(n => n.ReadPointId).UseCollation("C");
        builder.Property(n => n.Folded).UseCollation("C");
        builder.HasIndex(n => n.Folded);
        builder.HasIndex(n => n.Folded, "alias").HasDatabaseName("ux_read_point_names_alias").IsUnique().HasFilter("is_alias");
    }
}
