using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using TagService.Domain.Radio;

namespace TagService.Storage.Tables;

internal sealed class RangeMeasurementTable : IEntityTypeConfiguration<RangeMeasurementRow>
{
    public void Configure(EntityTypeBuilder<RangeMeasurementRow> builder)
    {
        builder.ToTable("range_measurements");
        builder.HasKey(m => m.Id);
        builder.Property(m => m.Id).UseIdentityAlwaysColumn();
        builder.Property(m => m.TagClassId).UseCollation("C");
        builder.Property(m => m.MaterialId).UseCollation("C");
        builder.Property(m => m.Measurement)
            .HasColumnType("jsonb")
            .HasConversion(m => StoredJson.Write(m), json => StoredJson.Read<RangeMeasurement>(json), StoredJson.Comparer<RangeMeasurement>());
        // One tag counts once. No foreign key: attachments may be distributed by tag, and the writer of either writes both.
        builder.HasIndex(m => m.AttachmentId).IsUnique().HasFilter("attachment_id IS NOT NULL");
        // A pair's posterior is computed from its latest findings.
        builder.HasIndex(m => new { m.TagClassId, m.MaterialId, m.Id });
    }
}
