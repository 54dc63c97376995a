using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;

namespace TagService.Storage.Tables;

internal sealed class RegisterSyncAssetTable : IEntityTypeConfiguration<RegisterSyncAssetRow>
{
    public void Configure(EntityTypeBuilder<RegisterSyncAssetRow> builder)
    {
        builder.ToTable("register_sync_assets");
        builder.HasKey(a => new { a.SyncId, a.AssetId });
        builder.Property(a => a.AssetId).UseCollation("C");
        // No foreign key: asking for the run with each of a million rows took most of a run's time. RegisterSyncSql.Forget clears up.
    }
}
