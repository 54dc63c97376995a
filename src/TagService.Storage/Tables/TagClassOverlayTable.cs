using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.TagClasses;

namespace TagService.Storage.Tables;

internal sealed class TagClassOverlayTable : IEntityTypeConfiguration<TagClassOverlayRow>
{
    public void Configure(EntityTypeBuilder<TagClassOverlayRow> builder)
    {
        builder.ToTable("tag_class_overlays", table =>
            table.HasCheckConstraint("ck_tag_class_overlays_id", "coalesce(overlay ->> 'id', '') = id AND length(id) BETWEEN 1 AND 60"));
        builder.HasKey(o => o.Id);
        builder.Property(o => o.Id).UseCollation("C");
        builder.Property(o => o.Overlay)
            .HasColumnType("jsonb")
            .HasConversion(o => StoredJson.Write(o), json => StoredJson.Read<TagClassOverlay>(json), StoredJson.Comparer<TagClassOverlay>());
        builder.Property(o => o.Version).IsRowVersion().HasColumnName("xmin");
    }
}
