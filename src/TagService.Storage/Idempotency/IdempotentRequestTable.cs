using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Idempotency;

internal sealed class IdempotentRequestTable : IEntityTypeConfiguration<IdempotentRequestRow>
{
    public void Configure(EntityTypeBuilder<IdempotentRequestRow> builder)
    {
        builder.ToTable("idempotent_requests");
        builder.HasKey(r => new { r.Operation, r.Key });
        builder.Property(r => r.Operation).UseCollation("C");
        builder.Property(r => r.Key).UseCollation("C");
        // Old keys are forgotten by time.
        builder.HasIndex(r => r.RecordedAt);
    }
}
