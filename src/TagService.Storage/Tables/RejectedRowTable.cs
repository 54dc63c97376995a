using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RejectedRowTable : IEntityTypeConfiguration<RejectedRowRow>
{
    public void Configure(EntityTypeBuilder<RejectedRowRow> builder)
    {
        builder.ToTable("rejected_rows");
        builder.HasKey(r => new { r.SyncId, r.Number });
        builder.Property(r => r.Problems).HasColumnType("jsonb");
        builder.HasOne<RegisterSyncRow>().WithMany().HasForeignKey(r => r.SyncId).OnDelete(DeleteBehavior.Cascade);
    }
}
