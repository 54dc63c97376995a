using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RangeCalibrationDueTable : IEntityTypeConfiguration<RangeCalibrationDueRow>
{
    public void Configure(EntityTypeBuilder<RangeCalibrationDueRow> builder)
    {
        builder.ToTable("range_calibrations_due");
        builder.HasKey(d => d.Id);
        builder.Property(d => d.Id).UseIdentityAlwaysColumn();
        builder.Property(d => d.TagClassId).UseCollation("C");
        builder.Property(d => d.MaterialId).UseCollation("C");
        builder.HasIndex(d => new { d.TagClassId, d.MaterialId });
    }
}
