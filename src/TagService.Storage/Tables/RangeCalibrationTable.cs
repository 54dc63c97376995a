using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RangeCalibrationTable : IEntityTypeConfiguration<RangeCalibrationRow>
{
    public void Configure(EntityTypeBuilder<RangeCalibrationRow> builder)
    {
        builder.ToTable("range_calibrations");
        builder.HasKey(c => new { c.TagClassId, c.MaterialId });
        builder.Property(c => c.TagClassId).UseCollation("C");
        builder.Property(c => c.MaterialId).UseCollation("C");
        // For the program version before, which does not write it.
        builder.Property(c => c.Between).HasColumnName("answers_between").HasDefaultValue(0);
    }
}
