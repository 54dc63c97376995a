using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RangeMeasurementBatchTable : IEntityTypeConfiguration<RangeMeasurementBatchRow>
{
    public void Configure(EntityTypeBuilder<RangeMeasurementBatchRow> builder)
    {
        builder.ToTable("range_measurement_batches");
        builder.HasKey(b => b.IdempotencyKey);
        builder.Property(b => b.IdempotencyKey).UseCollation("C");
    }
}
