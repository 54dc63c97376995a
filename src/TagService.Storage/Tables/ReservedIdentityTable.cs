using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class ReservedIdentityTable : IEntityTypeConfiguration<ReservedIdentityRow>
{
    public void Configure(EntityTypeBuilder<ReservedIdentityRow> builder)
    {
        builder.ToTable("reserved_identities");
        builder.HasKey(r => r.Identity);
        builder.Property(r => r.Identity).UseCollation("C");
        builder.Property(r => r.AssetId).UseCollation("C");
        builder.Property(r => r.NumberingRuleId).UseCollation("C");
        builder.Property(r => r.Version).IsRowVersion().HasColumnName("xmin");
        // Not cascading: a number once shown is never given out again, and the row says to whom it was shown.
        builder.HasOne<AssetRow>().WithMany().HasForeignKey(r => r.AssetId).OnDelete(DeleteBehavior.Restrict);
        // What makes a repeated question get the same answer, whoever asks at the same time.
        builder.HasIndex(r => new { r.AssetId, r.IsAdditional }).IsUnique().HasFilter("attachment_id IS NULL").HasDatabaseName("ux_reserved_identities_unused");
    }
}
